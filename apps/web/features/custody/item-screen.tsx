'use client'

import type { Item } from '@curebook/contract/custody'
import { useQuery } from '@tanstack/react-query'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { ButtonLink } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ArrivedPart } from './arrived-part.tsx'
import { custodyQueries } from './custody.queries.ts'
import { AncestryPart } from './ancestry-part.tsx'
import { DescentPart } from './descent-part.tsx'
import { DrawsPart } from './draws-part.tsx'
import { LifePart } from './life-part.tsx'
import { NowPart } from './now-part.tsx'
import { TestsPart } from './tests-part.tsx'

/** One item: what arrived, who has it now and what may be done with it, its whole life, and its family. */
export function ItemScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(custodyQueries.item(lab.id, id))
  const item = query.data
  return (
    <div className="stack stack-wide">
      <div className="stack">
        <Breadcrumb trail={[{ href: `/l/${lab.short}/materials`, label: words('custody.materials') }]} />
        <PageHeading
          screen={words('custody.title')}
          thing={item?.code}
          under={item && <Under item={item} />}
          failed={query.isError}
          actions={
            item !== undefined &&
            item.kind !== 'specimen' && (
              <ButtonLink href={`/l/${lab.short}/materials/${id}/labels`} prefetch={false}>
                {words('labels.open')}
              </ButtonLink>
            )
          }
        />
      </div>
      <Loaded query={query} what={words('custody.thisItem')} height="28rem">
        {(loaded) => (
          <>
            <NowPart item={loaded} />
            <ArrivedPart item={loaded} />
            <LifePart item={loaded} />
            <AncestryPart item={loaded} />
            <DescentPart item={loaded} />
            <DrawsPart item={loaded} />
            <TestsPart item={loaded} />
          </>
        )}
      </Loaded>
    </div>
  )
}

function Under({ item }: { item: Item }) {
  const words = useWords()
  const kind = words(`custody.kind.${item.kind}`)
  return <>{item.name === '' ? kind : `${kind}: ${item.name}`}</>
}
