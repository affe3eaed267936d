'use client'

import type { Limit } from '@curebook/contract/specifications'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import styles from './specifications.module.css'

/** Limits as held: value in the unit of record, the US figure beside, source and mark; a changed one with what it was. */
export function LimitTable({
  limits,
  caption,
  withChanges = false,
}: {
  limits: readonly Limit[]
  caption: string
  withChanges?: boolean
}) {
  const words = useWords()
  const { digits, quantity } = useLaboratoryFormat()
  const columns: readonly Column<Limit>[] = [
    {
      key: 'property',
      head: words('specifications.property'),
      cell: ({ label, condition }) => (
        <>
          {label}
          {condition !== null && <span className="quiet">, {condition}</span>}
        </>
      ),
    },
    {
      key: 'value',
      head: words('specifications.limit'),
      number: true,
      cell: ({ value, sense }) =>
        value === null ? (
          <StatusMark status="no-limit" />
        ) : (
          words(`specifications.sense.${sense}`, { value: digits(value) })
        ),
    },
    { key: 'unit', head: words('specifications.unit'), cell: ({ unit }) => <span className="nowrap">{unit}</span> },
    {
      key: 'us',
      head: words('specifications.us'),
      number: true,
      cell: ({ usValue, usUnit }) => (usValue === null ? '' : quantity(usValue, usUnit ?? undefined)),
    },
    {
      key: 'source',
      head: words('specifications.source'),
      cell: ({ source, alsoPublished }) => (
        <div className={styles.source}>
          {source}
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
    ...(withChanges ? [{ key: 'change', head: words('specifications.change'), cell: ChangeCell }] : []),
  ]
  return (
    <DataTable
      caption={caption}
      columns={columns}
      rows={limits}
      idOf={({ key }) => key}
      sortParam="limits"
      empty={null}
    />
  )
}

function ChangeCell({ changedFrom, changeReason }: Limit) {
  const words = useWords()
  const { quantity } = useLaboratoryFormat()
  if (changedFrom === null) return changeReason ?? <span className="quiet">{words('specifications.unchanged')}</span>
  const value =
    changedFrom.value === null ? words('specifications.noLimit') : quantity(changedFrom.value, changedFrom.unit)
  return (
    <>
      {words('specifications.changedFrom', { value, source: changedFrom.source })}
      <span style={{ display: 'block' }}>{changeReason}</span>
    </>
  )
}
