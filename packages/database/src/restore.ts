import { createHash } from 'node:crypto'
import pg from 'pg'
import {
  readBackupFile,
  type BackupHeader,
  type BackupReader,
  type BackupTrailer,
  type TableHead,
  type TableSum,
} from './backup-file.ts'
import { copyTable, readTables } from './backup-tables.ts'
import { copyIn } from './copy-stream.ts'
import { dropTables } from './drop-tables.ts'
import { migrate, readApplied } from './migrate.ts'
import { readMigrations, type Migration } from './migration-files.ts'
import { StartError } from './start-error.ts'
import { textSettings } from './text-settings.ts'

/**
 * Puts a backup into an empty database, in one transaction, and compares rows and digests of every table with the file before
 * it commits. A backup of an earlier version is loaded into the tables of its time and migrated from there.
 * Throws StartError when the database is not empty, or the file is not whole, not ours, or of a newer version.
 */
export async function restore(ownerUrl: string, file: string): Promise<{ header: BackupHeader; tables: TableSum[] }> {
  const reader = readBackupFile(file)
  try {
    const header = await reader.json<BackupHeader>().catch((error: unknown) => {
      throw error instanceof SyntaxError ? new StartError(`The file ${file} is not a backup of Curebook.`) : error
    })
    if (header.format !== 'curebook-backup' || header.version !== 1)
      throw new StartError(`The file ${file} is not a backup that this version reads.`)
    const migrations = migrationsOf(header, await readMigrations())
    await takeOffLaterTables(ownerUrl, migrations)
    await migrate(ownerUrl, { migrations })
    const tables = await load(ownerUrl, reader, header, file)
    await migrate(ownerUrl)
    return { header, tables }
  } finally {
    reader.close()
  }
}

/** The migrations that the backup's database had. */
function migrationsOf({ migrations }: BackupHeader, known: Migration[]): Migration[] {
  return migrations.map(({ name, checksum }) => {
    const found = known.find((each) => each.name === name)
    if (!found)
      throw new StartError(
        `The backup was made by a newer version of Curebook: it has the migration ${name}, which this version does not know.`,
      )
    if (found.checksum !== checksum)
      throw new StartError(`The migration ${name} is not the file that the backup was made with.`)
    return found
  })
}

/** An empty database that was migrated further than the backup's begins anew, from the tables of the backup's time. */
async function takeOffLaterTables(ownerUrl: string, migrations: Migration[]): Promise<void> {
  const client = new pg.Client({ connectionString: ownerUrl, application_name: 'curebook restore' })
  await client.connect()
  try {
    const { rows } = await client.query<{ made: boolean }>(
      `select to_regclass('public._prisma_migrations') is not null as made`,
    )
    if (!rows[0]!.made) return
    await refuseFilled(client, await readTables(client))
    const applied = await readApplied(client)
    if (migrations.every(({ name }) => applied.delete(name)) && applied.size === 0) return
    await dropTables(client)
  } finally {
    await client.end()
  }
}

async function load(ownerUrl: string, reader: BackupReader, header: BackupHeader, file: string): Promise<TableSum[]> {
  const client = new pg.Client({
    connectionString: ownerUrl,
    application_name: 'curebook restore',
    options: textSettings,
  })
  await client.connect()
  try {
    await client.query('begin')
    const tables = await readTables(client)
    await refuseFilled(client, tables)
    const foreignKeys = await liftGuards(client, tables)
    for (let left = tables.length; left > 0; left -= 1) await loadTable(client, reader)
    await lowerGuards(client, tables, foreignKeys)
    for (const { name, value, called } of header.sequences)
      await client.query('select setval($1::regclass, $2, $3)', [`public.${name}`, value, called])
    const sums = await compare(client, tables, await reader.json<BackupTrailer>(), file)
    await client.query('commit')
    await client.query('analyze')
    return sums
  } catch (error) {
    await client.query('rollback').catch(() => undefined)
    throw error
  } finally {
    await client.end()
  }
}

async function refuseFilled(client: pg.Client, tables: TableHead[]): Promise<void> {
  for (const { table } of tables) {
    const { rowCount } = await client.query(`select from public.${client.escapeIdentifier(table)} limit 1`)
    if (rowCount)
      throw new StartError(
        `The database is not empty: “${table}” has rows. A backup is restored into an empty database; nothing was touched.`,
      )
  }
}

type ForeignKey = { table: string; name: string; definition: string }

/** Triggers rest and foreign keys are taken off while rows come in table by table; both need the owner, no superuser. */
async function liftGuards(client: pg.Client, tables: TableHead[]): Promise<ForeignKey[]> {
  const { rows } = await client.query<ForeignKey>(`
    select conrelid::regclass::text as table, quote_ident(conname) as name, pg_get_constraintdef(oid) as definition
    from pg_constraint where contype = 'f' and connamespace = 'public'::regnamespace`)
  for (const { table, name } of rows) await client.query(`alter table ${table} drop constraint ${name}`)
  for (const { table } of tables)
    await client.query(`alter table public.${client.escapeIdentifier(table)} disable trigger user`)
  return rows
}

/** Puts them back; every foreign key is checked over all rows. */
async function lowerGuards(client: pg.Client, tables: TableHead[], foreignKeys: ForeignKey[]): Promise<void> {
  for (const { table, name, definition } of foreignKeys)
    await client.query(`alter table ${table} add constraint ${name} ${definition}`)
  for (const { table } of tables)
    await client.query(`alter table public.${client.escapeIdentifier(table)} enable trigger user`)
}

async function loadTable(client: pg.Client, reader: BackupReader): Promise<void> {
  const { table, columns } = await reader.json<TableHead>()
  const names = columns.map((column) => client.escapeIdentifier(column)).join(', ')
  await copyIn(client, `copy public.${client.escapeIdentifier(table)} (${names}) from stdin`, framesUntilEmpty(reader))
}

async function* framesUntilEmpty(reader: BackupReader): AsyncIterable<Buffer> {
  for (let frame = await reader.frame(); frame.length > 0; frame = await reader.frame()) yield frame
}

async function compare(
  client: pg.Client,
  tables: TableHead[],
  { tables: wanted }: BackupTrailer,
  file: string,
): Promise<TableSum[]> {
  const sums: TableSum[] = []
  for (const head of tables) {
    const sum = await copyTable(client, head)
    const there = wanted.find(({ table }) => table === head.table)
    if (there?.rows !== sum.rows || there.sha256 !== sum.sha256) {
      throw new StartError(
        `The table “${head.table}” does not come out of ${file} as it went in: ${there?.rows ?? 0} rows were written and ${sum.rows} read, or their digests differ. Nothing was kept.`,
      )
    }
    sums.push(sum)
  }
  return sums
}

/** One digest over all tables, to print beside a backup and compare after restoring. */
export function digestOfTables(tables: TableSum[]): string {
  return createHash('sha256')
    .update(tables.map(({ table, rows, sha256 }) => `${table} ${rows} ${sha256}\n`).join(''))
    .digest('hex')
}
