'use client'

import type { DesignSummary } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import { Loaded } from '#components/loaded.tsx'
import { Select } from '#components/select.tsx'
import { designQueries } from '#features/designs/designs.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import type { Chosen } from './compare-address.ts'

/** One side of a comparison: a design, and where it has several, which revision of it. */
export function ChooseRevision({
  side,
  chosen,
  onChoose,
}: {
  side: 'first' | 'second'
  chosen: Chosen | null
  onChoose: (chosen: Chosen) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(designQueries.list(lab.id, ''))
  return (
    <div className="row">
      <Loaded query={query} what={words('designs.these')} height="5rem">
        {({ items }) => (
          <>
            <Select
              name={`${side}-design`}
              label={words(`compare.side.${side}`)}
              value={chosen?.id ?? ''}
              onChange={({ target }) => target.value !== '' && onChoose({ id: target.value })}
              prompt={words('compare.chooseDesign')}
              options={items.map(({ id, name, projectName }) => ({
                value: id,
                label: words('compare.designOption', { name, project: projectName }),
              }))}
            />
            {chosen !== null && (
              <Revision
                side={side}
                chosen={chosen}
                newest={items.find(({ id }) => id === chosen.id)}
                onChoose={onChoose}
              />
            )}
          </>
        )}
      </Loaded>
    </div>
  )
}

/** Revisions are numbered from one; the list of designs tells the newest. */
function Revision({
  side,
  chosen,
  newest,
  onChoose,
}: {
  side: 'first' | 'second'
  chosen: Chosen
  newest: DesignSummary | undefined
  onChoose: (chosen: Chosen) => void
}) {
  const words = useWords()
  if (newest === undefined || newest.revision < 2) return null
  const numbers = Array.from({ length: newest.revision }, (_, index) => newest.revision - index)
  return (
    <Select
      name={`${side}-revision`}
      label={words(`compare.revision.${side}`)}
      value={String(chosen.revision ?? newest.revision)}
      onChange={({ target }) => onChoose({ id: chosen.id, revision: Number(target.value) })}
      options={numbers.map((number) => ({ value: String(number), label: words('designs.revisionNumber', { number }) }))}
    />
  )
}
