import { randomUUID } from 'node:crypto'
import pg from 'pg'
import { ensureJobQueue } from './job-queue.ts'
import { readMigrations, type Migration } from './migration-files.ts'
import { StartError } from './start-error.ts'

/** A first line of a migration that must not run inside a transaction (CREATE INDEX CONCURRENTLY). */
const withoutTransaction = '-- without transaction'
const lock = "hashtextextended('curebook migrations', 0)"

export type MigrateOptions = {
  migrations?: Migration[]
  onStep?: (sentence: string) => void
}

/**
 * Brings a database to the newest migration and returns the names it applied. Each file is one query in one transaction with
 * its row in `_prisma_migrations`, as the native engine keeps it; two starters at once wait for each other.
 * Throws StartError when the database was made by a newer version, or an applied file was changed since.
 */
export async function migrate(ownerUrl: string, { migrations, onStep }: MigrateOptions = {}): Promise<string[]> {
  const all = migrations ?? (await readMigrations())
  const client = new pg.Client({
    connectionString: ownerUrl,
    options: '-c TimeZone=UTC',
    application_name: 'curebook migrate',
  })
  await client.connect()
  try {
    await client.query(`select pg_advisory_lock(${lock})`)
    await client.query(tableSql)
    const applied = await readApplied(client)
    refuseStrangers(all, applied)
    const missing = all.filter(({ name }) => !applied.has(name))
    for (const migration of missing) {
      onStep?.(migration.name)
      await apply(client, migration)
    }
    await ensureJobQueue(client, ownerUrl)
    return missing.map(({ name }) => name)
  } finally {
    await client.end()
  }
}

/** Names and checksums of what was applied to a database, by name; empty where nothing was. */
export async function readApplied(client: pg.Client): Promise<Map<string, string>> {
  const { rows } = await client.query<{ migration_name: string; checksum: string; finished_at: Date | null }>(
    'select migration_name, checksum, finished_at from _prisma_migrations where rolled_back_at is null order by migration_name',
  )
  const unfinished = rows.find((row) => row.finished_at === null)
  if (unfinished) {
    throw new StartError(
      `The migration ${unfinished.migration_name} was begun on this database and not finished. Restore a backup, or finish it by hand and mark its row in _prisma_migrations.`,
    )
  }
  return new Map(rows.map((row) => [row.migration_name, row.checksum]))
}

function refuseStrangers(all: Migration[], applied: Map<string, string>): void {
  const known = new Map(all.map(({ name, checksum }) => [name, checksum]))
  for (const [name, checksum] of applied) {
    if (!known.has(name))
      throw new StartError(
        `The database was made by a newer version of Curebook: it has the migration ${name}, which this version does not know. Nothing was touched.`,
      )
    if (known.get(name) !== checksum)
      throw new StartError(
        `The migration ${name} is not the file that was applied to this database. Put the file back as it was; a change of the database is a new migration.`,
      )
  }
}

async function apply(client: pg.Client, { name, sql, checksum }: Migration): Promise<void> {
  const inside = !sql.startsWith(withoutTransaction)
  const startedAt = new Date()
  try {
    if (inside) await client.query('begin')
    await client.query(sql)
    await client.query(
      'insert into _prisma_migrations (id, checksum, finished_at, migration_name, started_at, applied_steps_count) values ($1, $2, clock_timestamp(), $3, $4, 1)',
      [randomUUID(), checksum, name, startedAt],
    )
    if (inside) await client.query('commit')
  } catch (error) {
    if (inside) await client.query('rollback').catch(() => undefined)
    const { message, position } = error as { message: string; position?: string }
    const line = position === undefined ? '' : ` (line ${sql.slice(0, Number(position)).split('\n').length})`
    throw new Error(`The migration ${name} failed and left nothing behind: ${message}${line}`, { cause: error })
  }
}

const tableSql = `
  revoke create on schema public from public;
  create table if not exists _prisma_migrations (
    id varchar(36) primary key not null,
    checksum varchar(64) not null,
    finished_at timestamptz,
    migration_name varchar(255) not null,
    logs text,
    rolled_back_at timestamptz,
    started_at timestamptz not null default now(),
    applied_steps_count integer not null default 0
  )`
