'use client'

import type { ComparedPart as Part, ComparedRow, ComparedValue } from '@curebook/contract/compared'
import { decimalsApart } from '@curebook/contract/compared-value'
import { DataTable, type Column } from '#components/data-table.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

/** One part of a comparison: both values, and in words whether and by how much they differ. */
export function ComparedPart({
  part,
  heads,
  onlyDifferent,
}: {
  part: Part
  heads: { readonly first: string; readonly second: string }
  onlyDifferent: boolean
}) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const say = useComparedWords()
  const rows = onlyDifferent ? part.rows.filter(({ difference }) => difference !== 'same') : part.rows
  if (rows.length === 0) return null
  const columns: readonly Column<ComparedRow>[] = [
    {
      key: 'what',
      head: words('compare.what'),
      cell: ({ key, of }) =>
        words(`compare.row.${key}`, { ...of, ...(of.content === undefined ? {} : { content: digits(of.content) }) }),
    },
    { key: 'first', head: heads.first, cell: (row) => say(row, row.first) },
    { key: 'second', head: heads.second, cell: (row) => say(row, row.second) },
    { key: 'difference', head: words('compare.difference'), cell: (row) => <Difference row={row} heads={heads} /> },
  ]
  return (
    <DataTable
      caption={words(`compare.part.${part.key}`)}
      columns={columns}
      rows={rows}
      idOf={({ key, of }) => [key, ...Object.values(of)].join(' ')}
      sortParam={`compare-${part.key}`}
      empty={null}
    />
  )
}

function Difference({ row, heads }: { row: ComparedRow; heads: { readonly first: string; readonly second: string } }) {
  const words = useWords()
  const { quantity } = useLaboratoryFormat()
  const say = useComparedWords()
  const { difference, first, second, by } = row
  if (difference === 'same') return <span className="quiet">{words('compare.same')}</span>
  if (difference === 'only-first') return <strong>{words('compare.only', { which: heads.first })}</strong>
  if (difference === 'only-second') return <strong>{words('compare.only', { which: heads.second })}</strong>
  if (by === null || first?.kind !== 'number' || second?.kind !== 'number')
    return <strong>{words('compare.differs')}</strong>
  const decimals = shownDecimals(row, first)
  return (
    <strong>
      {words('compare.differsBy', {
        first: say(row, first),
        second: say(row, second),
        by: quantity(by.replace('-', ''), first.unit, decimals),
        way: by.startsWith('-') ? 'less' : 'more',
      })}
    </strong>
  )
}

/** A value of a row as it is shown there: with as many decimals as it takes to tell the two apart. */
function useComparedWords() {
  const { quantity } = useLaboratoryFormat()
  return (row: ComparedRow, value: ComparedValue | null): string => {
    if (value === null) return ''
    if (value.kind === 'words') return value.words
    return quantity(value.digits, value.unit, shownDecimals(row, value))
  }
}

function shownDecimals(
  { first, second }: ComparedRow,
  { decimals }: Extract<ComparedValue, { kind: 'number' }>,
): number | undefined {
  if (decimals === undefined || first?.kind !== 'number' || second?.kind !== 'number') return decimals
  return first.unit === second.unit ? decimalsApart(first.digits, second.digits, decimals) : decimals
}
