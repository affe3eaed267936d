'use client'

import type { HandOver } from '@curebook/contract/hand-overs'
import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState, useSyncExternalStore } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { BenchFrame } from '#features/bench/bench-frame.tsx'
import { ApiProblem, fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { handOverQueries, useTake } from './hand-over.queries.ts'
import { HandedTests } from './handed-tests.tsx'

/** What I get by a colleague's code, before the one confirmation. */
export function TakeOverScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const code = useSyncExternalStore(
    (changed) => {
      window.addEventListener('hashchange', changed)
      return () => window.removeEventListener('hashchange', changed)
    },
    () => window.location.hash.slice(1),
    () => '',
  )
  const query = useQuery(handOverQueries.behind(lab.id, code))
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('handOver.takeTitle')}
          under={words('handOver.takeAbout')}
          actions={
            <ButtonLink href={`/l/${lab.short}/bench`} prefetch={false}>
              {words('bench.back')}
            </ButtonLink>
          }
        />
      }
    >
      {code === '' ? (
        <EmptyState title={words('handOver.noCode')} />
      ) : query.error instanceof ApiProblem && query.error.errors.some(({ path }) => path === 'code') ? (
        // Nothing to try again: another code is needed.
        <div role="alert">
          <EmptyState title={query.error.message}>{words('handOver.noCode')}</EmptyState>
        </div>
      ) : (
        <Loaded query={query} what={words('handOver.this')} height="24rem">
          {(offer) => <Offered key={code} code={code} offer={offer} />}
        </Loaded>
      )}
    </BenchFrame>
  )
}

function Offered({ code, offer }: { code: string; offer: HandOver }) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const confirm = useConfirmation()
  const [key] = useState(newId)
  const take = useTake(lab.id, key)
  const [allTheSame, setAllTheSame] = useState(false)
  const { from, tests, notAuthorised } = offer
  const { name } = from
  const left = new Set(allTheSame ? [] : notAuthorised.flatMap(({ testIds }) => testIds))
  const mine = tests.filter(({ testId }) => !left.has(testId))
  const takeThem = () =>
    take.mutate(
      { code, testIds: mine.map(({ testId }) => testId) },
      {
        onSuccess: ({ rows }) => {
          const count = rows.filter(({ outcome }) => outcome === 'done').length
          confirm(words('handOver.taken', { count, name }))
          router.push(`/l/${lab.short}/bench`)
        },
      },
    )
  return (
    <div className="stack">
      <p>
        {words('handOver.fromWhom', { name })} <TimeText at={offer.expiresAt} look="clock" />
      </p>
      <HandedTests caption={words('handOver.yours', { count: mine.length })} tests={mine} />
      {notAuthorised.length > 0 && (
        <section className="stack" aria-labelledby="not-authorised">
          <h2 id="not-authorised">{words('handOver.notAuthorised', { name })}</h2>
          <ul>
            {notAuthorised.map(({ sentence, testIds }) => (
              <li key={sentence}>{words('handOver.notAuthorisedFor', { sentence, count: testIds.length })}</li>
            ))}
          </ul>
          <p>{words('handOver.notAuthorisedMeans')}</p>
          <Checkbox
            name="all"
            label={words('handOver.allTheSame')}
            checked={allTheSame}
            onChange={(event) => setAllTheSame(event.target.checked)}
          />
        </section>
      )}
      <FormErrors errors={fieldErrors(take.error)} />
      {mine.length > 0 && (
        <div>
          <Button tone="main" size="bench" busy={take.isPending || take.isSuccess} onClick={takeThem}>
            {words('handOver.take', { count: mine.length })}
          </Button>
        </div>
      )}
    </div>
  )
}
