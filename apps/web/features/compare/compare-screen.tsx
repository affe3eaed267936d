'use client'

import { compareDesigns, type ComparedDesign } from '@curebook/contract/design-comparison'
import type { Design } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import type { ReactNode } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Checkbox } from '#components/choices.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { designQueries } from '#features/designs/designs.queries.ts'
import { rangeQueries } from '#features/range/range.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { readChosen, writeChosen, type Chosen } from './compare-address.ts'
import { ChooseRevision } from './choose-revision.tsx'
import { ComparedPart } from './compared-part.tsx'

/** Two designs, or two revisions of one, side by side. Which they are stands in the address. */
export function CompareScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const [a, setA] = useSearchParam('a')
  const [b, setB] = useSearchParam('b')
  const [first, second] = [readChosen(a), readChosen(b)]
  return (
    <div className="stack">
      <Breadcrumb trail={[{ href: `/l/${lab.short}/designs`, label: words('designs.title') }]} />
      <PageHeading screen={words('compare.title')} under={words('compare.under')} />
      <div className="row no-print">
        <ChooseRevision side="first" chosen={first} onChoose={(chosen) => setA(writeChosen(chosen))} />
        <ChooseRevision side="second" chosen={second} onChoose={(chosen) => setB(writeChosen(chosen))} />
      </div>
      {first === null || second === null ? (
        <EmptyState title={words('compare.choose')}>{words('compare.chooseMore')}</EmptyState>
      ) : (
        <Compared of={first}>
          {(one) => <Compared of={second}>{(other) => <Parts first={one} second={other} />}</Compared>}
        </Compared>
      )}
    </div>
  )
}

type Side = ComparedDesign & { readonly design: Design }

/** A revision with its range and recommendation, one after the other: each is asked for by the one before. */
function Compared({ of, children }: { of: Chosen; children: (side: Side) => ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(designQueries.one(lab.id, of))
  return (
    <Loaded query={query} what={words('designs.theDesign')} height="24rem">
      {(design) => <Found design={design}>{children}</Found>}
    </Loaded>
  )
}

function Found({ design, children }: { design: Design; children: (side: Side) => ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const range = useQuery(rangeQueries.range(lab.id, design))
  const recommended = useQuery(rangeQueries.recommendation(lab.id, design))
  return (
    <Loaded query={range} what={words('range.these')} height="24rem">
      {(view) => (
        <Loaded query={recommended} what={words('range.theRecommendation')} height="24rem">
          {({ recommendation }) => children({ design, range: view, recommendation })}
        </Loaded>
      )}
    </Loaded>
  )
}

function Parts({ first, second }: { first: Side; second: Side }) {
  const words = useWords()
  const [only, setOnly] = useSearchParam('only')
  const parts = compareDesigns(first, second)
  const differing = parts.flatMap(({ rows }) => rows).filter(({ difference }) => difference !== 'same').length
  const nameOf = ({ design }: Side) =>
    words('compare.nameOf', {
      name: design.name,
      number: design.revision,
      state: words(`designs.state.${design.state}`),
    })
  const heads = { first: nameOf(first), second: nameOf(second) }
  return (
    <section className="stack" aria-labelledby="compared">
      <h2 id="compared">{words('compare.count', { count: differing })}</h2>
      <p>
        <RevisionLink side={first}>{heads.first}</RevisionLink>
        {' · '}
        <RevisionLink side={second}>{heads.second}</RevisionLink>
      </p>
      <div className="no-print">
        <Checkbox
          name="only"
          label={words('compare.onlyDifferent')}
          checked={only === 'different'}
          onChange={(event) => setOnly(event.target.checked ? 'different' : '')}
        />
      </div>
      {parts.map((part) => (
        <ComparedPart key={part.key} part={part} heads={heads} onlyDifferent={only === 'different'} />
      ))}
    </section>
  )
}

function RevisionLink({ side: { design }, children }: { side: Side; children: ReactNode }) {
  const lab = useLaboratory()
  return <Link href={`/l/${lab.short}/designs/${design.id}?revision=${design.revision}`}>{children}</Link>
}
