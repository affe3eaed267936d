import { type ImportColumn, importColumns } from '@curebook/contract/instrument-import-columns'
import type { ImportFault } from '@curebook/contract/instrument-imports'
import { CsvError, parse } from 'csv-parse/sync'

/** A line of the file: what stands under each head, trimmed; what is not there is empty. */
export type FileLine = { readonly line: number; readonly cells: Readonly<Record<ImportColumn, string>> }

const needed: readonly ImportColumn[] = ['code', 'kind', 'name']
/** Other heads under which people keep the same. */
const otherHeads: Readonly<Record<string, ImportColumn>> = {
  use: 'name',
  description: 'name',
  'serial number': 'serial',
  resolution: 'smallest step',
  calibrated: 'calibrated on',
  'valid until': 'due',
  'effective from': 'factor from',
}
/** As many instruments as a laboratory has; a larger file is another one. */
const mostLines = 500

/**
 * Reads a table parted by commas, semicolons or tabs: quoted fields with line breaks, a byte order mark and either end of
 * line are read, empty lines are left out.
 */
export function readInstrumentFile(content: string): {
  readonly lines: readonly FileLine[]
  readonly faults: readonly ImportFault[]
} {
  const none = (line: number, message: string) => ({ lines: [], faults: [{ line, column: null, message }] })
  let records: { readonly line: number; readonly fields: readonly string[] }[]
  try {
    records = recordsOf(content)
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return none(lineOf(error), 'A quotation mark is not closed or stands within a field: put the field in “""” whole.')
  }
  const [head, ...rest] = records
  if (head === undefined) return none(1, 'The file is empty: its first line names the columns.')
  if (rest.length === 0) return none(head.line, 'There is no line below the heads of the columns.')
  if (rest.length > mostLines)
    return none(head.line, `The file has ${rest.length} lines: bring in at most ${mostLines} at once.`)
  const { columns, faults } = readHeads(head)
  if (faults.length > 0) return { lines: [], faults }
  const long = rest
    .filter(({ fields }) => fields.slice(columns.length).some((field) => field !== ''))
    .map(({ line, fields }) => ({
      ...{ line, column: null },
      message: `This line has ${fields.length} fields for ${columns.length} columns: put a field with a sign between columns in quotation marks.`,
    }))
  return { lines: rest.map(({ line, fields }) => ({ line, cells: cellsOf(columns, fields) })), faults: long }
}

function recordsOf(content: string): { line: number; fields: string[] }[] {
  let before = 0
  return (
    parse(content, {
      ...{ bom: true, delimiter: delimiterOf(content), info: true },
      ...{ trim: true, relax_column_count: true },
    }) as unknown as { info: { lines: number }; record: string[] }[]
  )
    .map(({ info, record }) => {
      // A field may go over several lines: the line is the one where its record begins.
      const line = before + 1
      before = info.lines
      return { line, fields: record }
    })
    .filter(({ fields }) => fields.some((field) => field !== ''))
}

/** The sign that parts the heads most often; signs within quotation marks part nothing. */
function delimiterOf(content: string): string {
  const head = (content.split(/\r?\n/).find((line) => line.trim() !== '') ?? '').replace(/"[^"]*"/g, '')
  const count = (sign: string) => head.split(sign).length
  return [',', ';', '\t'].toSorted((one, other) => count(other) - count(one))[0] ?? ','
}

function readHeads({ line, fields }: { line: number; fields: readonly string[] }): {
  readonly columns: readonly (ImportColumn | null)[]
  readonly faults: readonly ImportFault[]
} {
  const columns = fields.map(columnOf)
  const faults = fields.flatMap((field, index): ImportFault[] => {
    const column = columns[index]
    if (column === null && field !== '')
      return [
        { line, column: field, message: `“${field}” is no column here. Columns are: ${importColumns.join(', ')}.` },
      ]
    if (column !== null && columns.indexOf(column!) < index)
      return [{ line, column: field, message: `The column “${column}” stands here twice.` }]
    return []
  })
  const missing = needed
    .filter((column) => !columns.includes(column))
    .map((column) => ({ line, column, message: `The column “${column}” is missing.` }))
  return { columns, faults: [...faults, ...missing] }
}

/** Units in brackets go without saying: “capacity (g)”. */
function columnOf(head: string): ImportColumn | null {
  const plain = head
    .toLowerCase()
    .replace(/\s*\(.*\)$/, '')
    .replace(/[_\s]+/g, ' ')
    .trim()
  return importColumns.find((column) => column === plain) ?? otherHeads[plain] ?? null
}

function cellsOf(columns: readonly (ImportColumn | null)[], fields: readonly string[]): FileLine['cells'] {
  return Object.fromEntries(
    importColumns.map((column) => [column, fields[columns.indexOf(column)] ?? '']),
  ) as FileLine['cells']
}

function lineOf(error: CsvError): number {
  const { lines } = error as CsvError & { lines?: number }
  return lines ?? 1
}
