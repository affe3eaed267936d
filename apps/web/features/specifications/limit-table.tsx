'use client'

import type { Limit } from '@curebook/contract/specifications'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { useLimitWords } from './limit-words.ts'
import styles from './specifications.module.css'

/** Limits as held: value in the unit of record, the US figure beside, source and mark; a changed one with what it was. */
export function LimitTable({
  limits,
  caption,
  withChanges = false,
  comparisonSaid = false,
}: {
  limits: readonly Limit[]
  caption: string
  withChanges?: boolean
  /** Whether the page says elsewhere how every result is compared, where that is the same for all limits. */
  comparisonSaid?: boolean
}) {
  const words = useWords()
  const { quantity } = useLaboratoryFormat()
  const limitWords = useLimitWords()
  const [comparison, ...others] = [...new Set(limits.map((limit) => limit.comparison))]
  const differs = others.length > 0
  const columns: readonly Column<Limit>[] = [
    {
      key: 'property',
      head: words('specifications.property'),
      cell: ({ label, condition, method }) => (
        <div className={styles.source}>
          {label}
          {condition !== null && <span className="quiet">, {condition}</span>}
          {method !== null && (
            <span className="quiet small" style={{ display: 'block' }}>
              {method}
            </span>
          )}
        </div>
      ),
    },
    {
      key: 'group',
      head: words('specifications.limitGroup'),
      sort: ({ group }) => group,
      cell: ({ group }) => words(`specifications.group.${group}`),
    },
    {
      key: 'value',
      head: words('specifications.limit'),
      cell: (limit) =>
        limit.value === null && limit.sense !== 'declared' ? (
          <>
            <StatusMark status="no-limit" /> <span className="quiet">({limit.unit})</span>
          </>
        ) : (
          <span className="nowrap">{limitWords(limit)}</span>
        ),
    },
    {
      key: 'us',
      head: words('specifications.us'),
      number: true,
      cell: ({ usValue, usUnit }) => (usValue === null ? '' : quantity(usValue, usUnit ?? undefined)),
    },
    {
      key: 'source',
      head: words('specifications.source'),
      cell: ({ source, clause, alsoPublished }) => (
        <div className={styles.source}>
          {clause === null ? source : `${source}, ${clause}`}
          {alsoPublished.map((also) => (
            <span key={also.source} className="quiet" style={{ display: 'block' }}>
              {words('specifications.also', { value: quantity(also.value, also.unit), source: also.source })}
            </span>
          ))}
        </div>
      ),
    },
    {
      key: 'certainty',
      head: words('specifications.mark'),
      cell: ({ certainty }) => words(`specifications.certainty.${certainty.replaceAll(' ', '-')}`),
    },
    ...(differs
      ? [
          {
            key: 'comparison',
            head: words('specifications.comparison'),
            cell: (limit: Limit) => <div className={styles.source}>{limit.comparison}</div>,
          },
        ]
      : []),
    // A specification that the laboratory wrote holds nothing built in, and one adopted as it is has nothing to say.
    ...(withChanges && limits.some(({ changedFrom, changeReason }) => changedFrom !== null || changeReason !== null)
      ? [{ key: 'change', head: words('specifications.change'), cell: ChangeCell }]
      : []),
  ]
  return (
    <>
      <DataTable
        caption={caption}
        columns={columns}
        rows={limits}
        idOf={({ key }) => key}
        sortParam="limits"
        empty={null}
      />
      {!differs && !comparisonSaid && comparison !== undefined && (
        <p className="quiet small">{words('specifications.comparedAlike', { comparison })}</p>
      )}
    </>
  )
}

function ChangeCell({ changedFrom, changeReason, sense }: Limit) {
  const words = useWords()
  const limitWords = useLimitWords()
  if (changedFrom === null) return changeReason ?? <span className="quiet">{words('specifications.unchanged')}</span>
  const value = limitWords({ ...changedFrom, sense })
  return (
    <>
      {words('specifications.changedFrom', { value, source: changedFrom.source })}
      <span style={{ display: 'block' }}>{changeReason}</span>
    </>
  )
}
