import type { Client } from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { asLogin, connect, refusalOf } from '../../../tests/support/as-login.ts'
import { cloneDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory, type FilledLaboratory } from '../../../tests/support/fill-laboratory.ts'

let database: Awaited<ReturnType<typeof cloneDatabase>>
let owner: Client
let app: Client
let here: FilledLaboratory
let there: FilledLaboratory
let tables: string[]

/** What a client user reads of their own rows; every other tenant table is empty to them. */
const CLIENT_TABLES = ['client', 'project', 'report', 'report_event', 'question', 'question_answer', 'expected_day']

beforeAll(async () => {
  database = await cloneDatabase()
  ;[owner, app] = await Promise.all([connect(database.ownerUrl), connect(database.appUrl)])
  here = await fillLaboratory(owner)
  there = await fillLaboratory(owner)
  const { rows } = await owner.query<{ name: string }>(`
    select c.relname as name from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attname = 'lab_id' and not a.attisdropped
    where c.relkind in ('r', 'p') and c.relnamespace = 'public'::regnamespace order by 1`)
  tables = rows.map(({ name }) => name)
})

afterAll(async () => {
  await Promise.all([owner.end(), app.end()])
  await database.drop()
})

const labsSeen = async (table: string) =>
  (await app.query<{ lab_id: string }>(`select distinct lab_id from "${table}"`)).rows.map(({ lab_id }) => lab_id)

test('selecting without where from every table with lab_id gives the rows of the one laboratory', async () => {
  expect(tables.length).toBeGreaterThan(50)
  const { id: member, account_id: account } = here.rows.get('membership') as { id: string; account_id: string }
  await asLogin(app, { lab: here.lab, account, member }, async () => {
    for (const table of tables) expect([table, ...(await labsSeen(table))]).toEqual([table, here.lab])
    expect((await app.query('select id from laboratory')).rows).toEqual([{ id: here.lab }])
  })
})

test('what one person is told, nobody else in the laboratory sees', async () => {
  const member = '00000000-0000-7000-8000-000000000001'
  await asLogin(app, { lab: here.lab, member }, async () => {
    for (const table of ['notice', 'notice_seen'])
      expect([table, (await app.query(`select from "${table}"`)).rowCount]).toEqual([table, 0])
  })
})

test('a person in two laboratories sees only the one that the address names', async () => {
  const account = here.rows.get('membership')!.account_id as string
  await owner.query('update membership set account_id = $1 where lab_id = $2', [account, there.lab])
  await asLogin(app, { lab: here.lab, account }, async () => expect(await labsSeen('membership')).toEqual([here.lab]))
  await asLogin(app, { account }, async () =>
    expect((await labsSeen('membership')).sort()).toEqual([here.lab, there.lab].sort()),
  )
})

test('without a laboratory set, nothing is seen', async () => {
  await asLogin(app, {}, async () => {
    for (const table of [...tables, 'laboratory'])
      expect([table, (await app.query(`select from "${table}"`)).rowCount]).toEqual([table, 0])
  })
})

test('a client user sees no row of specimen, reading, result, deviation, nor of anything else internal', async () => {
  const client = here.rows.get('client')!.id as string
  await asLogin(app, { lab: here.lab, client }, async () => {
    for (const table of tables) {
      const { rowCount } = await app.query(`select from "${table}"`)
      expect([table, rowCount]).toEqual([table, CLIENT_TABLES.includes(table) ? 1 : 0])
    }
  })
})

test('a client user sees nothing of another client in the same laboratory', async () => {
  const other = '00000000-0000-7000-8000-000000000001'
  await asLogin(app, { lab: here.lab, client: other }, async () => {
    for (const table of CLIENT_TABLES)
      expect([table, (await app.query(`select from "${table}"`)).rowCount]).toEqual([table, 0])
  })
})

test('a client user writes nothing but that a report was opened, a question, and their own entry in the ledger', async () => {
  const client = here.rows.get('client')!.id as string
  const member = here.rows.get('membership')!.id as string
  const report = here.rows.get('report')!.id as string
  const open = (kind: string) =>
    app.query(
      `insert into report_event (lab_id, id, report_id, kind, by_id, at) values ($1, gen_random_uuid(), $2, $3, $4, '2026-03-02')`,
      [here.lab, report, kind, member],
    )
  const ask = (by: string, of: string, project = here.rows.get('project')!.id) =>
    app.query(
      `insert into question (lab_id, id, project_id, client_id, text, printed_name, by_id, at)
       values ($1, gen_random_uuid(), $2, $3, 'When?', 'Client', $4, '2026-03-02')`,
      [here.lab, project, of, by],
    )
  const answer = () =>
    app.query(
      `insert into question_answer (lab_id, id, question_id, client_id, text, printed_name, by_id, at)
       values ($1, gen_random_uuid(), $2, $3, 'Soon', 'Client', $4, '2026-03-02')`,
      [here.lab, here.rows.get('question')!.id, client, member],
    )
  const act = (of: string | null) =>
    app.query(
      `insert into ledger_entry (lab_id, id, actor_kind, actor_id, action, subject_kind, subject_id, client_id, topics, content, dig, at)
       values ($1, gen_random_uuid(), 'person', $2, 'report.open', 'report', $3, $4, '{}', '{}', sha256('{}'), '2026-03-02')`,
      [here.lab, member, report, of],
    )
  await asLogin(app, { lab: here.lab, client, member }, async () => {
    expect(await refusalOf(open('opened'))).toBe('accepted')
    expect(await refusalOf(ask(member, client))).toBe('accepted')
    expect(await refusalOf(act(client))).toBe('accepted')
    expect(await refusalOf(act(null))).toBe('accepted')
    expect((await app.query('update project set name = $1', ['mine'])).rowCount).toBe(0)
    expect((await app.query('update client set name = $1', ['mine'])).rowCount).toBe(0)
  })
  const stranger = '00000000-0000-7000-8000-000000000001'
  for (const statement of [
    () => open('withdrawn'),
    () => act(there.rows.get('client')!.id as string),
    () => ask(stranger, client),
    answer,
  ])
    await asLogin(app, { lab: here.lab, client, member }, async () =>
      expect(await refusalOf(statement())).toBe('42501'),
    )
})

test('a row cannot be written into another laboratory, nor point across', async () => {
  const into = (lab: string, client: unknown) =>
    app.query(
      `insert into project (lab_id, id, client_id, code, name, kind, report_to, copies_to, status_word, created_at)
       values ($1, gen_random_uuid(), $2, 'P9', 'x', 'full', '', '', '', '2026-03-02')`,
      [lab, client],
    )
  const own = here.rows.get('client')!.id
  const foreign = there.rows.get('client')!.id
  await asLogin(app, { lab: here.lab }, async () => expect(await refusalOf(into(here.lab, own))).toBe('accepted'))
  await asLogin(app, { lab: here.lab }, async () => expect(await refusalOf(into(there.lab, foreign))).toBe('42501'))
  await asLogin(app, { lab: here.lab }, async () => expect(await refusalOf(into(here.lab, foreign))).toBe('23503'))
})

test('every foreign key of a tenant table carries lab_id, and nothing cascades', async () => {
  const { rows } = await owner.query(`
    select conname from pg_constraint k where contype = 'f' and connamespace = 'public'::regnamespace and conrelid::regclass::text not like 'identity\\_%'
      and (confupdtype <> 'r' or confdeltype <> 'r' or not exists (select from pg_attribute a where a.attrelid = k.conrelid and a.attnum = k.conkey[1] and a.attname = 'lab_id'))`)
  expect(rows).toEqual([])
})

test('every index of a tenant table begins with lab_id, except where a secret or an account names the laboratory', async () => {
  const { rows } = await owner.query<{ name: string }>(
    `
    select i.indexrelid::regclass::text as name from pg_index i join pg_attribute a on a.attrelid = i.indrelid and a.attname = 'lab_id'
    where i.indrelid::regclass::text = any ($1) and i.indkey[0] <> a.attnum order by 1`,
    [tables],
  )
  expect(rows.map(({ name }) => name)).toEqual([
    'instrument_key_token_hash_idx',
    'invitation_token_hash_idx',
    'membership_account_id_idx',
    'report_public_token_hash_idx',
    'wall_code_code_hash_key',
    'wall_pairing_key_hash_key',
  ])
})
