'use client'

import { useState } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { CodeSquare } from '#components/code-square.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { TimeText } from '#components/time-text.tsx'
import { BenchFrame } from '#features/bench/bench-frame.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { useOffer } from './hand-over.queries.ts'
import { HandedTests } from './handed-tests.tsx'

/** Shows the code under which somebody else takes on what runs for me. */
export function OfferScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const offer = useOffer(lab.id)
  const [id, setId] = useState(newId)
  const show = () =>
    offer.mutate(
      { id },
      // The next code is another offer; one that failed on its way is sent again as it was.
      { onSuccess: () => setId(newId()) },
    )
  const { data } = offer
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('handOver.title')}
          under={words('handOver.about')}
          actions={
            <ButtonLink href={`/l/${lab.short}/bench`} prefetch={false}>
              {words('bench.back')}
            </ButtonLink>
          }
        />
      }
    >
      <FormErrors errors={fieldErrors(offer.error)} />
      {data?.code != null && data.square !== null && (
        <section className="stack" aria-labelledby="hand-over-code">
          <h2 id="hand-over-code">{words('handOver.codeTitle')}</h2>
          <CodeSquare square={data.square} label={words('handOver.square')} />
          <p className="reading" style={{ fontSize: 'var(--size-value)', letterSpacing: '0.06em' }}>
            {data.code}
          </p>
          <p>
            {words('handOver.once')} <TimeText at={data.expiresAt} look="clock" />
          </p>
        </section>
      )}
      <div>
        <Button tone={data === undefined ? 'main' : 'plain'} size="bench" busy={offer.isPending} onClick={show}>
          {words(data === undefined ? 'handOver.show' : 'handOver.showAnother')}
        </Button>
      </div>
      {data !== undefined && <HandedTests caption={words('handOver.offered')} tests={data.tests} />}
    </BenchFrame>
  )
}
