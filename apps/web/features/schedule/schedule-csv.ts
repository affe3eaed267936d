import { readSort, sortRows, type SortKey } from '#components/table-order.ts'

type FileColumn<Row> = {
  readonly key: string
  readonly sort: (row: Row) => SortKey
  readonly file: readonly { readonly head: string; readonly text: (row: Row) => string }[]
}

/** What is on screen as cells: the same rows, columns and order. */
export function fileCells<Row>(
  columns: readonly FileColumn<Row>[],
  rows: readonly Row[],
  sort: string,
): { readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const wanted = readSort(sort)
  const keyOf = columns.find(({ key }) => key === wanted?.key)?.sort
  const ordered = wanted === undefined || keyOf === undefined ? rows : sortRows(rows, keyOf, wanted.direction)
  const cells = columns.flatMap(({ file }) => file)
  return { heads: cells.map(({ head }) => head), rows: ordered.map((row) => cells.map(({ text }) => text(row))) }
}

/** Text of a file for spreadsheets: with a byte order mark, and `;` between columns where the decimal sign is a comma. */
export function csvOf(heads: readonly string[], rows: readonly (readonly string[])[], decimalSign: '.' | ','): string {
  const between = decimalSign === ',' ? ';' : ','
  const line = (cells: readonly string[]) => cells.map((cell) => csvCell(cell)).join(between)
  return `\ufeff${[heads, ...rows].map(line).join('\r\n')}\r\n`
}

/** Quoted; a beginning that a spreadsheet would run as a formula is disarmed. */
function csvCell(text: string): string {
  const harmless = /^[=+\-@\t]/.test(text) ? `'${text}` : text
  return `"${harmless.replaceAll('"', '""')}"`
}

/** Laboratory, view and date: `tern-hollow-schedule-late-2026-03-05.csv`. */
export function csvName(short: string, view: readonly string[], day: string): string {
  const part = (text: string) =>
    text
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
      .replaceAll(/^-|-$/g, '')
  return `${[short, 'schedule', ...view.map(part), day].filter((one) => one !== '').join('-')}.csv`
}
