import { createHash } from 'node:crypto'
import type pg from 'pg'
import { copyOut } from './copy-stream.ts'
import type { TableHead, TableSum } from './backup-file.ts'

/** Every table of the product with the columns that are stored; the job queue and the list of migrations are not data. */
export async function readTables(client: pg.Client): Promise<TableHead[]> {
  const { rows } = await client.query<TableHead>(`
    select c.relname as table, array_agg(a.attname::text order by a.attnum) as columns
    from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped and a.attgenerated = ''
    where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and c.relname <> '_prisma_migrations'
    group by c.relname order by c.relname`)
  return rows
}

/** Reads a table's rows in the order of its key, so that equal contents give equal bytes, and sums them up. */
export async function copyTable(
  client: pg.Client,
  { table, columns }: TableHead,
  take?: (chunk: Buffer) => Promise<void>,
): Promise<TableSum> {
  const names = columns.map((column) => client.escapeIdentifier(column)).join(', ')
  const hash = createHash('sha256')
  let rows = 0
  const sql = `copy (select ${names} from public.${client.escapeIdentifier(table)} order by ${await orderOf(client, table)}) to stdout`
  await copyOut(client, sql, async (chunk) => {
    // The server sends a row a piece.
    rows += 1
    hash.update(chunk)
    await take?.(chunk)
  })
  return { table, rows, sha256: hash.digest('hex') }
}

async function orderOf(client: pg.Client, table: string): Promise<string> {
  const { rows } = await client.query<{ name: string }>(
    `select quote_ident(a.attname) as name from pg_index i cross join unnest(i.indkey) with ordinality as k(number, place)
     join pg_attribute a on a.attrelid = i.indrelid and a.attnum = k.number
     where i.indisprimary and i.indrelid = ('public.' || quote_ident($1))::regclass order by k.place`,
    [table],
  )
  return rows.map(({ name }) => name).join(', ') || '1'
}
