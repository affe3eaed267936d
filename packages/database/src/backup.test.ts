import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import pg from 'pg'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { connect, insertRow } from '../../../tests/support/as-login.ts'
import { cloneDatabase, type ClonedDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory } from '../../../tests/support/fill-laboratory.ts'
import { backup } from './backup.ts'
import { dropTables } from './drop-tables.ts'
import { migrate } from './migrate.ts'
import { readMigrations } from './migration-files.ts'
import { digestOfTables, restore } from './restore.ts'

// Whole clusters and databases are made here; a busy machine takes its time.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 })

const laboratory = {
  id: '01900000-0000-7000-8000-000000000001',
  short_name: 'tern-hollow',
  name: 'Tern Hollow',
  address: '',
  contact: '',
  zone: 'Europe/London',
  closed_days: '{}',
  shifts: '[]',
  units: 'si',
  decimal_sign: 'point',
  language: 'en',
  paper: 'a4',
}
let folder: string
let full: ClonedDatabase
const clones: ClonedDatabase[] = []

async function clone() {
  const database = await cloneDatabase()
  clones.push(database)
  return database
}

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'curebook-backup-'))
  full = await clone()
  const owner = await connect(full.ownerUrl)
  await fillLaboratory(owner)
  await fillLaboratory(owner)
  await owner.end()
  await backup(full.ownerUrl, path.join(folder, 'full'), new Date('2026-03-02T08:00:00Z'))
})

afterAll(async () => {
  for (const database of clones) await database.drop()
  await rm(folder, { recursive: true, force: true })
})

test('a restored database backs up to the same digest', async () => {
  const target = await clone()
  const { tables, header } = await restore(target.ownerUrl, path.join(folder, 'full'))
  const again = await backup(target.ownerUrl, path.join(folder, 'again'), new Date())
  expect(digestOfTables(again)).toBe(digestOfTables(tables))
  expect(header.madeAt).toBe('2026-03-02T08:00:00.000Z')
  expect(tables.find(({ table }) => table === 'reading')?.rows).toBe(2)
})

test('after restoring, the guards stand as before: triggers on, foreign keys checked', async () => {
  const target = await clone()
  await restore(target.ownerUrl, path.join(folder, 'full'))
  const guards = `select
    (select count(*)::int from pg_constraint where contype = 'f' and convalidated and connamespace = 'public'::regnamespace) as keys,
    (select count(*)::int from pg_trigger where not tgisinternal and tgenabled = 'O') as triggers`
  expect((await rowsOf(target, guards))[0]).toEqual((await rowsOf(full, guards))[0])
  await expect(rowsOf(target, 'update reading set typed = typed')).rejects.toMatchObject({ code: 'CB001' })
})

test('a database with rows is refused and left as it is', async () => {
  const target = await clone()
  const owner = await connect(target.ownerUrl)
  await fillLaboratory(owner)
  await owner.end()
  await expect(restore(target.ownerUrl, path.join(folder, 'full'))).rejects.toThrow(/not empty/)
  expect(await rowsOf(target, 'select from laboratory')).toHaveLength(1)
})

test('a cut file, a file of something else, and a changed row are refused with nothing kept', async () => {
  const whole = await readFile(path.join(folder, 'full'))
  await writeFile(path.join(folder, 'cut'), whole.subarray(0, whole.length - 200))
  await writeFile(path.join(folder, 'other'), 'not a backup at all')
  const changed = gunzipSync(whole)
  changed.write('812.41', changed.indexOf('812.40'))
  await writeFile(path.join(folder, 'changed'), gzipSync(changed))
  const target = await clone()
  await expect(restore(target.ownerUrl, path.join(folder, 'changed'))).rejects.toThrow(/does not come out/)
  await expect(restore(target.ownerUrl, path.join(folder, 'cut'))).rejects.toThrow(/cannot be read|not whole/)
  await expect(restore(target.ownerUrl, path.join(folder, 'other'))).rejects.toThrow(/cannot be read|not a backup/)
  await expect(restore(target.ownerUrl, path.join(folder, 'missing'))).rejects.toThrow(/cannot be read/)
  expect(await rowsOf(target, 'select from laboratory')).toHaveLength(0)
})

test('a backup of an earlier version goes into an empty database of today, and is migrated from its own time', async () => {
  const migrations = await readMigrations()
  const earlier = await clone()
  const owner = await connect(earlier.ownerUrl)
  await dropTables(owner)
  await migrate(earlier.ownerUrl, { migrations: migrations.slice(0, -1) })
  await insertRow(owner, 'laboratory', laboratory)
  await owner.end()
  await backup(earlier.ownerUrl, path.join(folder, 'earlier'), new Date())
  const target = await clone()
  await restore(target.ownerUrl, path.join(folder, 'earlier'))
  expect(await rowsOf(target, 'select name from laboratory')).toEqual([{ name: 'Tern Hollow' }])
  expect(await rowsOf(target, 'select from _prisma_migrations')).toHaveLength(migrations.length)
})

test('a backup of a database with a migration unknown here is refused', async () => {
  const newer = await clone()
  const owner = await connect(newer.ownerUrl)
  await owner.query(
    `insert into _prisma_migrations (id, checksum, finished_at, migration_name) values ('x', 'y', now(), '29990101000000_later')`,
  )
  await owner.end()
  await backup(newer.ownerUrl, path.join(folder, 'newer'), new Date())
  const target = await clone()
  await expect(restore(target.ownerUrl, path.join(folder, 'newer'))).rejects.toThrow(/newer version/)
})

async function rowsOf({ ownerUrl }: ClonedDatabase, sql: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: ownerUrl })
  await client.connect()
  try {
    return (await client.query(sql)).rows
  } finally {
    await client.end()
  }
}
