import type { LedgerBreak } from '@curebook/contract/ledger'
import type { ClientBase } from 'pg'
import { canonicalJson } from '#platform/canonical-json'
import { type LedgerRow, ledgerContentOf, type WatchedTable, watchedTables } from '#platform/ledger-content'

/** A row as an entry holds it, with the entry that does. */
export type HeldRow = LedgerRow & { seq: number | null; entryId: string }

export type RowComparison = ReturnType<typeof createRowComparison>

/** Compares what entries hold of readings, results and signatures with the rows that stand in their tables. */
export function createRowComparison(client: ClientBase, labId: string) {
  const held: Record<WatchedTable, number> = { reading: 0, result: 0, signature: 0 }

  async function compareTable(table: WatchedTable, rows: HeldRow[]): Promise<LedgerBreak | null> {
    const ids = rows.map(({ row }) => String(row.id))
    const stored = await client.query<Record<string, unknown>>(
      `${selectOf(table)} where lab_id = $1 and id = any($2::uuid[])`,
      [labId, ids],
    )
    const byId = new Map(stored.rows.map((row) => [row.id, row]))
    for (const [index, { row, seq, entryId }] of rows.entries()) {
      const id = ids[index]!
      const at = { seq, entryId, table, rowId: id }
      const standing = byId.get(id)
      if (!standing)
        return {
          ...at,
          kind: 'row-missing',
          message: `The ${table} ${id} stands in entry ${entryId} and not in its table: it was deleted.`,
        }
      const difference = differenceOf(row, ledgerContentOf(table, standing).row)
      if (difference)
        return {
          ...at,
          kind: 'row-altered',
          message: `The ${table} ${id} was changed after it was written: ${difference}.`,
        }
    }
    held[table] += rows.length
    return null
  }

  return {
    /** The first of these rows that is gone or changed. */
    async compare(rows: HeldRow[]): Promise<LedgerBreak | null> {
      for (const table of Object.keys(watchedTables) as WatchedTable[]) {
        const own = rows.filter((row) => row.table === table)
        const found = own.length === 0 ? null : await compareTable(table, own)
        if (found) return found
      }
      return null
    },

    /** After all entries: a row that stands in no entry. `entryHolds` tells it for one. */
    async findStranger(): Promise<LedgerBreak | null> {
      for (const table of Object.keys(watchedTables) as WatchedTable[]) {
        const { rows } = await client.query<{ count: string }>(`select count(*) from ${table} where lab_id = $1`, [
          labId,
        ])
        if (Number(rows[0]!.count) !== held[table]) return firstStranger(client, labId, table)
      }
      return null
    },

    count: () => held.reading + held.result + held.signature,
  }
}

/** NUMERIC and days as text: a number type and a zone would change them. */
function selectOf(table: WatchedTable): string {
  const { numbers, days }: { numbers: readonly string[]; days: readonly string[] } = watchedTables[table]
  return `select t.*${[...numbers, ...days].map((column) => `, t.${column}::text as ${column}`).join('')} from ${table} t`
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
