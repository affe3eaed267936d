import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import type { Canonical } from './canonical-json.ts'

/** A row as it stands under an entry's digest: the columns that are not null, by their names in the database. */
export type LedgerRow = { table: string; row: { [column: string]: Canonical } }

/**
 * Tables whose every row stands in exactly one entry: the ledger's verification finds a row of them that no entry holds. Rows of
 * others are compared where an entry holds them. Columns named here are those whose type text cannot show: NUMERIC drops no
 * digit but may gain trailing noughts, a day has no time.
 */
export const watchedTables = {
  reading: { numbers: ['value'], days: [] },
  reading_withdrawal: { numbers: [], days: [] },
  result: { numbers: ['value'], days: ['observed_on'] },
  signature: { numbers: [], days: [] },
  step_event: { numbers: [], days: [] },
} as const satisfies Record<string, { numbers: readonly string[]; days: readonly string[] }>

export type WatchedTable = keyof typeof watchedTables

/**
 * A row's content for its ledger entry, the same whether it comes from Prisma (`labId`, Decimal, Date) or from SQL
 * (`lab_id`, text, Buffer): nulls and `written_at` left out, numbers plain without trailing noughts, times as ISO with
 * milliseconds, bytes in hexadecimal. Give every column that is not null, defaults of the database included.
 */
export function ledgerContentOf(table: WatchedTable | (string & {}), row: Record<string, unknown>): LedgerRow {
  const { numbers, days }: { numbers: readonly string[]; days: readonly string[] } =
    table in watchedTables ? watchedTables[table as WatchedTable] : { numbers: [], days: [] }
  const content: LedgerRow['row'] = {}
  for (const [key, value] of Object.entries(row)) {
    const column = key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
    if (value === null || value === undefined || column === 'written_at') continue
    if (numbers.includes(column)) content[column] = plainNumber(value)
    else if (days.includes(column))
      content[column] = value instanceof Date ? value.toISOString().slice(0, 10) : String(value).slice(0, 10)
    else content[column] = plainValue(value)
  }
  return { table, row: content }
}

function plainValue(value: unknown): Canonical {
  if (typeof value === 'string' || typeof value === 'boolean') return value
  if (typeof value === 'number' || typeof value === 'bigint') return String(value)
  if (value instanceof Date) return value.toISOString()
  if (value instanceof Uint8Array) return Buffer.from(value).toString('hex')
  if (Array.isArray(value)) return value.map(plainValue)
  if (isDecimal(value)) return plainNumber(value)
  throw new TypeError(`A ledger row cannot hold ${Object.prototype.toString.call(value)}`)
}

function isDecimal(value: unknown): boolean {
  return typeof value === 'object' && value !== null && typeof (value as { toFixed?: unknown }).toFixed === 'function'
}

function plainNumber(value: unknown): string {
  return plainDigits(decimal(String(value)))
}
