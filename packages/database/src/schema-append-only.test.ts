import { readdirSync, readFileSync } from 'node:fs'
import type { Client } from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { asLogin, connect, refusalOf } from '../../../tests/support/as-login.ts'
import { cloneDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory, type FilledLaboratory } from '../../../tests/support/fill-laboratory.ts'

let database: Awaited<ReturnType<typeof cloneDatabase>>
let owner: Client
let app: Client
let here: FilledLaboratory

const SCHEMA = new URL('../../../prisma/schema/', import.meta.url)

/** Tables by the mark that stands behind their purpose in the schema. */
function tablesMarked(mark: 'A' | 'M' | 'P'): string[] {
  const text = readdirSync(SCHEMA)
    .map((file) => readFileSync(new URL(file, SCHEMA), 'utf8'))
    .join('\n')
  const models = [...text.matchAll(/^\/\/\/ .*\[([AMP])\].*\nmodel \w+ \{[\s\S]*?@@map\("(\w+)"\)/gm)]
  return models.filter(([, found]) => found === mark).map(([, , table]) => table!)
}

beforeAll(async () => {
  database = await cloneDatabase()
  ;[owner, app] = await Promise.all([connect(database.ownerUrl), connect(database.appUrl)])
  here = await fillLaboratory(owner)
})

afterAll(async () => {
  await Promise.all([owner.end(), app.end()])
  await database.drop()
})

/** Answers to retries expire, so they are the one append-only table whose rows may be deleted. */
const guarded = tablesMarked('A').filter((table) => table !== 'request_key')
const statements = (table: string) => [
  `update "${table}" set lab_id = lab_id`,
  `delete from "${table}"`,
  `truncate "${table}" cascade`,
]

test('every model says its mark', () => {
  const all = [...tablesMarked('A'), ...tablesMarked('M'), ...tablesMarked('P')]
  const models = readdirSync(SCHEMA).flatMap(
    (file) => readFileSync(new URL(file, SCHEMA), 'utf8').match(/^model /gm) ?? [],
  )
  expect(all).toHaveLength(models.length)
  expect(guarded).toContain('reading')
})

test.each(guarded)('%s: the application has no right to change, delete or truncate', async (table) => {
  for (const statement of statements(table))
    await asLogin(app, { lab: here.lab }, async () =>
      expect([statement, await refusalOf(app.query(statement))]).toEqual([statement, '42501']),
    )
})

test.each(guarded)('%s: a trigger refuses even the owner', async (table) => {
  for (const statement of statements(table))
    await asLogin(owner, {}, async () =>
      expect([statement, await refusalOf(owner.query(statement))]).toEqual([statement, 'CB001']),
    )
})

test.each(guarded)('%s: the database alone says when a row was written', async (table) => {
  const statement = `insert into "${table}" (lab_id, written_at) values ('${here.lab}', '2020-01-01')`
  await asLogin(app, { lab: here.lab }, async () => expect(await refusalOf(app.query(statement))).toBe('42501'))
})

test('a row goes in through the application with a written time by the real clock', async () => {
  await asLogin(app, { lab: here.lab }, async () => {
    const { rows } = await app.query<{ near: boolean }>(
      `insert into report_event (lab_id, id, report_id, kind, by_id, at) values ($1, gen_random_uuid(), $2, 'opened', $3, '2026-03-02')
       returning abs(extract(epoch from written_at - clock_timestamp())) < 60 as near`,
      [here.lab, here.rows.get('report')!.id, here.rows.get('membership')!.id],
    )
    expect(rows).toEqual([{ near: true }])
  })
})

test('the application deletes projections and drafts only', async () => {
  const { rows } = await owner.query<{ table: string }>(
    `select table_name as table from information_schema.table_privileges where table_schema = 'public' and grantee = 'curebook_app' and privilege_type = 'DELETE' order by 1`,
  )
  const projections = tablesMarked('P').filter((table) => table !== 'ledger_unsealed')
  const drafts = ['design_method', 'mix', 'mix_component', 'plan', 'request_key']
  expect(rows.map(({ table }) => table)).toEqual([...projections, ...drafts].sort())
})

test('the application reaches no account, seals nothing, and owns nothing', async () => {
  for (const table of [
    'identity_user',
    'identity_session',
    'identity_account',
    'identity_verification',
    'identity_two_factor',
    'identity_rate',
    'identity_pin',
    'identity_device',
    'identity_device_person',
  ])
    expect(await refusalOf(app.query(`select from ${table}`))).toBe('42501')
  const seal = `insert into ledger_seal (lab_id, seq, entry_id, previous, hash, sealed_at) values ('${here.lab}', 2, '${String(here.rows.get('ledger_entry')!.id)}', '', '', now())`
  await asLogin(app, { lab: here.lab }, async () => expect(await refusalOf(app.query(seal))).toBe('42501'))
  await asLogin(app, { lab: here.lab }, async () =>
    expect(await refusalOf(app.query('delete from ledger_unsealed'))).toBe('42501'),
  )
  const { rows } = await owner.query(
    `select relname from pg_class c join pg_roles r on r.oid = c.relowner where r.rolname in ('curebook_app', 'curebook_identity', 'curebook_sealer')`,
  )
  expect(rows).toEqual([])
})

test('identity and sealer reach nothing of the laboratory but what they are for', async () => {
  const reach = async (login: string) =>
    (
      await owner.query<{ right: string }>(
        `select distinct table_name || ':' || lower(privilege_type) as right from information_schema.column_privileges where grantee = $1
         union select distinct table_name || ':delete' from information_schema.table_privileges where grantee = $1 and privilege_type = 'DELETE'`,
        [login],
      )
    ).rows.map(({ right }) => right)
  expect((await reach('curebook_identity')).filter((right) => !right.startsWith('identity_'))).toEqual([])
  expect((await reach('curebook_sealer')).sort()).toEqual(
    [
      'ledger_entry:select',
      'ledger_seal:insert',
      'ledger_seal:select',
      'ledger_unsealed:delete',
      'ledger_unsealed:select',
    ].sort(),
  )
})
