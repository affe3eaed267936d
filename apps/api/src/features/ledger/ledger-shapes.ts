import type { ClientBase } from 'pg'
import type { LedgerRow } from '#platform/ledger-content'
import { ledgerContentOf } from '#platform/ledger-content'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'

/** A table as it is now: its key within a laboratory, and the type of every column. */
export type TableShape = {
  readonly table: string
  readonly key: readonly string[]
  readonly types: ReadonlyMap<string, string>
}

/** Null: there is no such table any more. */
export async function readShape(client: ClientBase, table: string): Promise<TableShape | null> {
  const { rows } = await client.query<{ column: string; type: string; in_key: boolean }>(
    `select a.attname as column, format_type(a.atttypid, null) as type, coalesce(a.attnum = any(i.indkey), false) as in_key
       from pg_class c
       join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
       left join pg_index i on i.indrelid = c.oid and i.indisprimary
      where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and c.relname = $1
      order by a.attnum`,
    [table],
  )
  if (rows.length === 0) return null
  return {
    table,
    key: rows.filter(({ in_key, column }) => in_key && column !== 'lab_id').map(({ column }) => column),
    types: new Map(rows.map(({ column, type }) => [column, type])),
  }
}

/** What tells a row from the others of its table and laboratory. */
export function keyOf({ key }: TableShape, row: Record<string, unknown>): string {
  return key.map((column) => String(row[column])).join(' ')
}

/** The rows that stand under these keys. NUMERIC and days come as text: a number type and a zone would change them. */
export async function selectByKeys(
  client: ClientBase,
  labId: string,
  { table, key, types }: TableShape,
  rows: readonly LedgerRow[],
): Promise<Record<string, unknown>[]> {
  const column = (name: string) => client.escapeIdentifier(name)
  const asText = [...types].filter(([, type]) => type === 'numeric' || type === 'date').map(([name]) => name)
  const wanted = key.map((name, index) => `$${index + 2}::${types.get(name)}[]`)
  const { rows: found } = await client.query<Record<string, unknown>>(
    `select t.*${asText.map((name) => `, t.${column(name)}::text as ${column(name)}`).join('')}
       from unnest(${wanted.join(', ')}) as w (${key.map(column).join(', ')})
       join ${column(table)} t on t.lab_id = $1 and ${key.map((name) => `t.${column(name)} = w.${column(name)}`).join(' and ')}`,
    [labId, ...key.map((name) => rows.map(({ row }) => row[name] ?? null))],
  )
  return found
}

/** A row of the table as an entry would hold it today. */
export function standingContent(shape: TableShape, stored: Record<string, unknown>): LedgerRow['row'] {
  return withTypes(shape, ledgerContentOf(shape.table, stored).row)
}

/** A row by the types of its columns: 12.30 and 12.3 are one number, and an instant is one however it was written. */
export function withTypes({ types }: TableShape, row: LedgerRow['row']): LedgerRow['row'] {
  return Object.fromEntries(Object.entries(row).map(([column, value]) => [column, sameForm(types.get(column), value)]))
}

function sameForm(type: string | undefined, value: LedgerRow['row'][string]): LedgerRow['row'][string] {
  if (typeof value !== 'string') return value
  if (type === 'numeric') return plainDigits(decimal(value))
  if (type === 'date') return value.slice(0, 10)
  if (type === 'timestamp with time zone') return new Date(value).toISOString()
  return value
}
