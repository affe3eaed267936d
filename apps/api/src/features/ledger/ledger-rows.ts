import type { LedgerBreak } from '@curebook/contract/ledger'
import type { ClientBase } from 'pg'
import { canonicalJson } from '#platform/canonical-json'
import { type LedgerRow, type WatchedTable, watchedTables } from '#platform/ledger-content'
import { keyOf, readShape, selectByKeys, standingContent, type TableShape, withTypes } from './ledger-shapes.ts'

/** A row as an entry holds it, with the entry that does. */
export type HeldRow = LedgerRow & { seq: number | null; entryId: string }

export type RowComparison = ReturnType<typeof createRowComparison>

/** Compares the rows that entries hold, whatever their tables, with those that stand there. */
export function createRowComparison(client: ClientBase, labId: string) {
  const shapes = new Map<string, TableShape | null>()
  const held: Partial<Record<string, number>> = {}
  let count = 0

  async function shapeOf(table: string): Promise<TableShape | null> {
    if (!shapes.has(table)) shapes.set(table, await readShape(client, table))
    return shapes.get(table)!
  }

  async function compareTable(table: string, rows: HeldRow[]): Promise<LedgerBreak | null> {
    const shape = await shapeOf(table)
    const standing =
      shape && new Map((await selectByKeys(client, labId, shape, rows)).map((row) => [keyOf(shape, row), row]))
    for (const { row, seq, entryId } of rows) {
      const id = isId(row.id) ? row.id : null
      const name = `The ${table.replaceAll('_', ' ')} ${id ?? (shape === null ? '' : keyOf(shape, row))}`.trimEnd()
      const at = { seq, entryId, table, rowId: id }
      const stored = shape && standing!.get(keyOf(shape, row))
      if (!stored)
        return {
          ...at,
          kind: 'row-missing',
          message: `${name} stands in entry ${entryId} and not in its table: it was deleted.`,
        }
      const difference = differenceOf(withTypes(shape, row), standingContent(shape, stored))
      if (difference)
        return { ...at, kind: 'row-altered', message: `${name} was changed after it was written: ${difference}.` }
    }
    held[table] = (held[table] ?? 0) + rows.length
    count += rows.length
    return null
  }

  return {
    /** The first of these rows that is gone or changed. */
    async compare(rows: HeldRow[]): Promise<LedgerBreak | null> {
      const tables = new Set(rows.map(({ table }) => table))
      for (const table of tables) {
        const found = await compareTable(
          table,
          rows.filter((row) => row.table === table),
        )
        if (found) return found
      }
      return null
    },

    /** After all entries: a row of a watched table that stands in no entry. */
    async findStranger(): Promise<LedgerBreak | null> {
      for (const table of Object.keys(watchedTables) as WatchedTable[]) {
        const { rows } = await client.query<{ count: string }>(`select count(*) from ${table} where lab_id = $1`, [
          labId,
        ])
        if (Number(rows[0]!.count) !== (held[table] ?? 0)) return firstStranger(client, labId, table)
      }
      return null
    },

    count: () => count,
  }
}

function isId(value: unknown): value is string {
  return typeof value === 'string'
}

function differenceOf(held: LedgerRow['row'], standing: LedgerRow['row']): string | undefined {
  const column = [...new Set([...Object.keys(held), ...Object.keys(standing)])]
    .sort()
    .find((key) => said(held[key]) !== said(standing[key]))
  return (
    column && `its ${column.replaceAll('_', ' ')} is ${said(standing[column])}, the ledger says ${said(held[column])}`
  )
}

function said(value: LedgerRow['row'][string] | undefined): string {
  return value === undefined ? 'nothing' : canonicalJson(value)
}

/** Looks for the row among the entries' texts, only once the counts have shown that there is one. */
async function firstStranger(client: ClientBase, labId: string, table: WatchedTable): Promise<LedgerBreak> {
  const { rows } = await client.query<{ id: string }>(
    `select t.id from ${table} t
     where t.lab_id = $1 and not exists (
       select from ledger_entry e, jsonb_array_elements(e.content::jsonb -> 'rows') held
       where e.lab_id = $1 and held ->> 'table' = $2 and held -> 'row' ->> 'id' = t.id::text)
     order by t.written_at, t.id limit 1`,
    [labId, table],
  )
  const id = rows[0]?.id ?? null
  const message = id
    ? `The ${table} ${id} stands in no entry: it was not written by this product.`
    : `A ${table} stands in more than one entry.`
  return { kind: 'row-without-entry', seq: null, entryId: null, table, rowId: id, message }
}
