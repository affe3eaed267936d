'use client'

import type { GradationCheck } from '@curebook/contract/range'
import { sourceMark } from '@curebook/contract/source-mark'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

type Row = GradationCheck['rows'][number]

/** What was found on each sieve against what the specification allows: inside, outside, or not tested. */
export function GradationCheckTable({ check }: { check: GradationCheck }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const columns: readonly Column<Row>[] = [
    { key: 'sieve', head: words('range.bandSieve'), cell: ({ label }) => label },
    { key: 'verdict', head: words('range.bandVerdict'), cell: ({ verdict }) => <Verdict verdict={verdict} /> },
    {
      key: 'band',
      head: words('range.bandPassing'),
      unit: '%',
      number: true,
      cell: ({ from, to }) =>
        from === to ? digits(from) : words('range.bandSpan', { from: digits(from), to: digits(to) }),
    },
    {
      key: 'found',
      head: words('range.bandFound'),
      unit: '%',
      number: true,
      cell: ({ passing }) => (passing === null ? '' : digits(passing)),
    },
  ]
  return (
    <div className="stack stack-tight">
      <h3>{words('range.bandAgainst')}</h3>
      <p className="strong">{check.sentence}</p>
      <DataTable
        caption={words('range.bandAgainst')}
        captionHidden
        columns={columns}
        rows={check.rows}
        idOf={({ size }) => size}
        sortParam="band"
        empty={null}
      />
      <p className="quiet small">{words('range.bandSource', { source: sourceMark(check) })}</p>
    </div>
  )
}

function Verdict({ verdict }: Pick<Row, 'verdict'>) {
  const words = useWords()
  if (verdict === 'not tested') return <StatusMark status="not-tested" />
  const isInside = verdict === 'inside'
  return (
    <StatusMark status={isInside ? 'pass' : 'fail'}>{words(isInside ? 'range.inside' : 'range.outside')}</StatusMark>
  )
}
