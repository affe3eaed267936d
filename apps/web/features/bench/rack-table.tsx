'use client'

import type { TestView } from '@curebook/contract/bench'
import type { ReadingDeclaration } from '@curebook/trade/procedure/declaration'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { SpecimenMark, type SpecimenForm } from '#components/specimen-mark.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { differenceOf } from './difference.ts'
import { AsTyped } from './target-line.tsx'
import { EntryState } from './entry-state.tsx'
import type { ReadingSlot } from './reading-slots.ts'
import type { WeighedRow } from './use-rack.ts'
import type { Readings } from './use-readings.ts'

/** The rack as it stands: what was weighed before, now, the difference, by whom and when; the next one is marked. */
export function RackTable({
  view,
  rows,
  declaration,
  readings,
  expected,
  onTake,
}: {
  view: TestView
  rows: readonly WeighedRow[]
  declaration: ReadingDeclaration
  slot: ReadingSlot
  readings: Readings
  expected: WeighedRow | undefined
  onTake: ((testId: string) => void) | undefined
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const earlier = rows.find((row) => row.earlier.length > 0)?.earlier.at(-1)?.label
  const { unit } = declaration
  const difference = (row: WeighedRow) => {
    const before = row.earlier.at(-1)?.typed
    const found =
      before === undefined || row.weighed === undefined ? undefined : differenceOf(before, row.weighed, unit)
    return found === undefined
      ? ''
      : words(`bench.differenceOf.${found.sense}`, { digits: format.digits(found.digits) })
  }
  const columns: readonly Column<WeighedRow>[] = [
    {
      key: 'specimen',
      head: words('bench.specimen'),
      cell: (row) => (
        <span className="row" style={{ flexWrap: 'nowrap' }}>
          <SpecimenMark form={view.item.form as SpecimenForm} code={row.code} />
          {row.label}
        </span>
      ),
    },
    ...(earlier === undefined
      ? []
      : [
          {
            key: 'earlier',
            head: earlier,
            unit,
            number: true,
            cell: (row: WeighedRow) => <AsTyped typed={row.earlier.at(-1)?.typed ?? ''} unit={undefined} />,
          },
        ]),
    {
      key: 'weighed',
      head: declaration.label,
      unit,
      number: true,
      cell: (row) => <AsTyped typed={row.weighed ?? ''} unit={undefined} />,
    },
    ...(earlier === undefined
      ? []
      : [{ key: 'difference', head: words('bench.differenceHead'), unit, number: true, cell: difference }]),
    {
      key: 'state',
      head: words('bench.state'),
      cell: (row) =>
        row.entry !== undefined && row.entry.state !== 'stored' ? (
          <EntryState entry={row.entry} readings={readings} />
        ) : row.weighed !== undefined ? (
          <span className="row">
            <StatusMark status="stored" />
            {row.reading?.waits && <StatusMark status="waiting">{words('bench.waitsForRelease')}</StatusMark>}
            {row.reading !== null && (
              <span className="quiet">
                {row.reading.by.name}, <TimeText at={row.reading.eventAt} look="clock" />
              </span>
            )}
          </span>
        ) : row.testId === expected?.testId ? (
          <StatusMark status="due">{words('bench.rack.next')}</StatusMark>
        ) : (
          words('bench.rack.toWeigh')
        ),
    },
    ...(onTake === undefined
      ? []
      : [
          {
            key: 'act',
            head: <span className="sr-only">{words('bench.rack.act')}</span>,
            cell: (row: WeighedRow) => (
              <Button
                onClick={() => onTake(row.testId)}
                aria-label={words(row.weighed === undefined ? 'bench.rack.weighNamed' : 'bench.rack.correctNamed', {
                  label: row.label,
                  code: row.code,
                })}
              >
                {words(row.weighed === undefined ? 'bench.rack.weigh' : 'bench.correct.short')}
              </Button>
            ),
          },
        ]),
  ]
  return (
    <DataTable
      caption={words('bench.rack.table')}
      columns={columns}
      rows={rows}
      idOf={({ testId }) => testId}
      sortParam="rack"
      empty={<EmptyState title={words('bench.rack.none')} />}
    />
  )
}
