import { createHash } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type pg from 'pg'
import { connect } from '../../../tests/support/as-login.ts'
import { cloneDatabase, type ClonedDatabase } from '../../../tests/support/database.ts'
import { migrate } from './migrate.ts'
import { readMigrations, type Migration } from './migration-files.ts'

let database: ClonedDatabase
let owner: pg.Client
let known: Migration[]

beforeAll(async () => {
  database = await cloneDatabase()
  owner = await connect(database.ownerUrl)
  known = await readMigrations()
})

afterAll(async () => {
  await owner.end()
  await database.drop()
})

const migration = (name: string, sql: string): Migration => ({
  name,
  sql,
  checksum: createHash('sha256').update(sql).digest('hex'),
})
const exists = async (table: string) =>
  (await owner.query('select to_regclass($1) as found', [table])).rows[0].found !== null

test('two at once apply each migration once', async () => {
  const next = [...known, migration('29990101000000_add_twice', 'create table twice (id int); select pg_sleep(0.2);')]
  const applied = await Promise.all([
    migrate(database.ownerUrl, { migrations: next }),
    migrate(database.ownerUrl, { migrations: next }),
  ])
  expect(applied.flat()).toEqual(['29990101000000_add_twice'])
  await owner.query(`drop table twice; delete from _prisma_migrations where migration_name like '2999%'`)
})

test('a file that fails halfway leaves nothing behind and is named with its line', async () => {
  const broken = migration('29990101000000_break', 'create table half (id int);\nselect 1/0;')
  await expect(migrate(database.ownerUrl, { migrations: [...known, broken] })).rejects.toThrow(
    /29990101000000_break failed and left nothing behind: division by zero/,
  )
  expect(await exists('half')).toBe(false)
  expect(await migrate(database.ownerUrl)).toEqual([])
})

test('a file with a trigger body, semicolons and all, goes in as one', async () => {
  const sql = `create table seen (id int); -- one; two
    create function see() returns trigger language plpgsql as $$ begin new.id := 7; return new; end; $$;
    create trigger see before insert on seen for each row execute function see();`
  await migrate(database.ownerUrl, { migrations: [...known, migration('29990101000000_see', sql)] })
  await owner.query('insert into seen values (1)')
  expect((await owner.query('select id from seen')).rows).toEqual([{ id: 7 }])
  await owner.query(
    `drop table seen; drop function see(); delete from _prisma_migrations where migration_name like '2999%'`,
  )
})

test('a database of a newer version and a changed file are refused', async () => {
  await expect(migrate(database.ownerUrl, { migrations: known.slice(0, -1) })).rejects.toThrow(/newer version/)
  const changed = known.map((each, index) => (index === 0 ? { ...each, checksum: '0'.repeat(64) } : each))
  await expect(migrate(database.ownerUrl, { migrations: changed })).rejects.toThrow(/not the file that was applied/)
})

test('the application’s login cannot make tables, and may work jobs off', async () => {
  const app = await connect(database.appUrl)
  try {
    await expect(app.query('create table mine (id int)')).rejects.toMatchObject({ code: '42501' })
    await app.query(`select enqueue('render', '{"report":"x"}')`)
    expect((await app.query(`select task_identifier from graphile_worker.jobs`)).rows).toEqual([
      { task_identifier: 'render' },
    ])
  } finally {
    await app.end()
  }
})
