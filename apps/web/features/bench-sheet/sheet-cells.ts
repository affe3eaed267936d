import type { EventTime } from '@curebook/contract/common'
import type { TestView } from '@curebook/contract/bench'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { contextOf, type BenchInstrument } from '#features/bench/instrument-choice.ts'
import { paperTime, readClock } from './paper-time.ts'
import type { SheetColumn, SheetRow } from './sheet-columns.ts'

/** A filled box, ready to be sent; or what is wrong with it, or to be asked about it. */
export type SheetCell = {
  readonly key: string
  readonly row: SheetRow
  readonly column: SheetColumn
  readonly typed: string
  readonly time: EventTime | undefined
  /** The day and the time of day as written: what says whether a box that is sent again is the same act. */
  readonly written: string
  readonly fault: 'no-clock' | 'wrong-clock' | undefined
  /** A sentence beside the box: a refusal, or a question. */
  readonly refusal: string | undefined
  readonly question: string | undefined
}

export const cellKey = (row: SheetRow, column: Pick<SheetColumn, 'key'>) => `${row.testId}/${column.key}`
export const clockKey = (row: SheetRow) => `${row.testId}/clock`

/** The filled boxes of a sheet, row by row in the order of the work. A box left empty is no cell. */
export function filledCells(
  values: (name: string) => string,
  {
    rows,
    columns,
    instrumentOf,
    parameters,
    day,
    commonClock,
    at,
  }: {
    readonly rows: readonly SheetRow[]
    readonly columns: readonly SheetColumn[]
    readonly instrumentOf: (column: SheetColumn) => BenchInstrument | undefined
    readonly parameters: TestView['edition']['parameters']
    readonly day: string
    readonly commonClock: string
    readonly at: { readonly zone: string; readonly deviceNow: number; readonly offset: number }
  },
): readonly SheetCell[] {
  return rows.flatMap((row) =>
    columns.flatMap((column) => {
      const key = cellKey(row, column)
      const typed = values(key).trim()
      if (typed === '') return []
      const clockTyped = column.kind === 'act' ? typed : values(clockKey(row)).trim() || commonClock.trim()
      const clock = readClock(clockTyped)
      const cell = {
        key,
        row,
        column,
        typed,
        time: clock === undefined ? undefined : paperTime(day, clock, at),
        written: `${day} ${clock ?? ''}`,
        fault: clock !== undefined ? undefined : clockTyped === '' ? ('no-clock' as const) : ('wrong-clock' as const),
      }
      if (column.kind === 'act') return [{ ...cell, refusal: undefined, question: undefined }]
      const { declaration } = column.slot
      const checked = checkReading(
        declaration,
        typed,
        contextOf(declaration, instrumentOf(column), { targets: {}, parameters }),
      )
      return [
        {
          ...cell,
          refusal: checked.ok ? undefined : checked.message,
          question: checked.ok ? checked.questions[0]?.text : undefined,
        },
      ]
    }),
  )
}
