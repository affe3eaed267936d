'use client'

import { useQuery } from '@tanstack/react-query'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { useLimitWords } from '#features/specifications/limit-words.ts'
import { specificationQueries } from '#features/specifications/specifications.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { limitsAnswered, type AnsweredLimit, type Holder } from './limits-answered.ts'
import type { Method } from './methods.queries.ts'

/** The limits that results of a method are compared with: of the laboratory's own specifications, and of the built-in ones. */
export function LimitPart({ method }: { method: Method }) {
  const words = useWords()
  const lab = useLaboratory()
  const own = useQuery({ ...specificationQueries.list(lab.id), enabled: lab.may('specification:read') })
  const builtIn = useQuery({ ...specificationQueries.builtIn(lab.id), enabled: lab.may('specification:read') })
  return (
    <section className="stack stack-tight" aria-labelledby="limits">
      <h2 id="limits">{words('methods.limits')}</h2>
      {method.answers.length === 0 ? (
        <p className="quiet prose">{words('methods.noProperty')}</p>
      ) : !lab.may('specification:read') ? (
        <p className="quiet prose">{words('methods.limitsNotShown')}</p>
      ) : (
        <Loaded query={builtIn} what={words('methods.limitsOfThese')}>
          {(shipped) => (
            <Loaded query={own} what={words('methods.limitsOfThese')}>
              {(held) => <LimitRows rows={limitsAnswered(method.answers, shipped.items, held.items)} />}
            </Loaded>
          )}
        </Loaded>
      )}
    </section>
  )
}

function LimitRows({ rows }: { rows: readonly AnsweredLimit[] }) {
  const words = useWords()
  const limitWords = useLimitWords()
  const heldFor = ({ aggregateTypes, traffics }: Holder) =>
    [aggregateTypes.join(', '), traffics.map((traffic) => words(`methods.traffic.${traffic}`)).join(', ')]
      .filter((part) => part !== '')
      .join('; ')
  const columns: readonly Column<AnsweredLimit>[] = [
    {
      key: 'property',
      head: words('methods.property'),
      cell: ({ limit: { label, condition } }) => (condition === null ? label : `${label}, ${condition}`),
    },
    {
      key: 'limit',
      head: words('methods.limit'),
      cell: ({ limit }) => <span className="nowrap">{limitWords(limit)}</span>,
    },
    {
      key: 'specifications',
      head: words('methods.specifications'),
      cell: ({ holders }) => (
        <ul className="plain-list">
          {holders.map((holder) => (
            <li key={`${holder.name} ${holder.version}`}>
              {holder.version === null
                ? holder.name
                : words('methods.ownSpecification', { name: holder.name, version: holder.version })}
              <span className="quiet small"> {heldFor(holder)}</span>
            </li>
          ))}
        </ul>
      ),
    },
    {
      key: 'source',
      head: words('methods.source'),
      cell: ({ limit: { source, clause } }) =>
        clause === null ? source : words('methods.sourceClause', { source, clause }),
    },
    {
      key: 'certainty',
      head: words('methods.certainty'),
      cell: ({ limit }) => words(`methods.certainty.${limit.certainty.replaceAll(' ', '-')}`),
    },
  ]
  return (
    <DataTable
      caption={words('methods.limits')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ id }) => id}
      sortParam="limits"
      empty={<EmptyState title={words('methods.noLimit')}>{words('methods.noLimitMore')}</EmptyState>}
    />
  )
}
