'use client'

import type { BulkOutcome, ScheduleRow } from '@curebook/contract/schedule'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useWords } from '#lib/words.ts'

type OutcomeRow = BulkOutcome['rows'][number]

/** What became of each row; refused ones first, and they stay chosen behind the dialog. */
export function AssignOutcome({
  rows,
  outcome,
  name,
  onClose,
}: {
  rows: readonly ScheduleRow[]
  outcome: BulkOutcome
  /** Null: the tests were taken back. */
  name: string | null
  onClose: () => void
}) {
  const words = useWords()
  const refused = outcome.rows.filter((row) => row.outcome === 'refused')
  const done = outcome.rows.length - refused.length
  const testOf = ({ id }: OutcomeRow) => rows.find(({ testId }) => testId === id)
  const columns: readonly Column<OutcomeRow>[] = [
    {
      key: 'test',
      head: words('schedule.test'),
      cell: (row) => {
        const test = testOf(row)
        return test === undefined ? row.id : words('schedule.testName', { label: test.label, code: test.code })
      },
    },
    {
      key: 'outcome',
      head: words('schedule.outcome'),
      cell: (row) => <StatusMark status={row.outcome}>{words(`schedule.outcome.${row.outcome}`)}</StatusMark>,
    },
    { key: 'sentence', head: words('schedule.why'), cell: ({ sentence }) => sentence },
  ]
  return (
    <div className="stack">
      <p role="status" className="strong">
        {name === null
          ? words('schedule.takenBack', { done, refused: refused.length })
          : words('schedule.given', { done, refused: refused.length, name })}
      </p>
      {refused.length > 0 && <p>{words('schedule.stayChosen')}</p>}
      <DataTable
        caption={words('schedule.outcomes')}
        columns={columns}
        rows={[...refused, ...outcome.rows.filter((row) => row.outcome === 'done')]}
        idOf={({ id }) => id}
        sortParam="outcome"
        empty={null}
        tall
      />
      <div className="row">
        <Button tone="main" onClick={onClose}>
          {words('schedule.backToSchedule')}
        </Button>
      </div>
    </div>
  )
}
