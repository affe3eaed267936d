import { randomBytes, randomUUID } from 'node:crypto'
import type { Client } from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import { asLogin, connect, insertRow, refusalOf } from '../../../tests/support/as-login.ts'
import { cloneDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory, type FilledLaboratory } from '../../../tests/support/fill-laboratory.ts'

let database: Awaited<ReturnType<typeof cloneDatabase>>
let owner: Client
let app: Client
let here: FilledLaboratory
let there: FilledLaboratory

beforeAll(async () => {
  database = await cloneDatabase()
  ;[owner, app] = await Promise.all([connect(database.ownerUrl), connect(database.appUrl)])
  here = await fillLaboratory(owner)
  there = await fillLaboratory(owner)
})

afterAll(async () => {
  await Promise.all([owner.end(), app.end()])
  await database.drop()
})

test('an invitation is found by its token alone', async () => {
  const { rows } = await app.query('select lab_id, invitation_id from invitation_by_token($1)', [
    here.rows.get('invitation')!.token_hash,
  ])
  expect(rows).toEqual([{ lab_id: here.lab, invitation_id: here.rows.get('invitation')!.id }])
  expect((await app.query('select from invitation_by_token($1)', [randomBytes(32)])).rowCount).toBe(0)
})

test('an instrument is found by the key that stands, and by no ended one', async () => {
  const key: Record<string, unknown> = { ...here.rows.get('instrument_key')! }
  const [id, hash] = [randomUUID(), randomBytes(32)]
  await insertRow(owner, 'instrument_key', { ...key, id, token_hash: hash })
  const find = async () => (await app.query('select lab_id, instrument_id from instrument_by_key($1)', [hash])).rows
  expect(await find()).toEqual([{ lab_id: here.lab, instrument_id: key.instrument_id }])
  const ended = { ...key, id: randomUUID(), token_hash: null, supersedes_id: id, reason: 'Ended' }
  await insertRow(owner, 'instrument_key', ended)
  expect(await find()).toEqual([])
  expect((await app.query('select from instrument_by_key($1)', [randomBytes(32)])).rowCount).toBe(0)
})

test('a wall screen is found by a code and by a key that was paired, and holds until it is ended', async () => {
  const [code, pairing, end] = ['wall_code', 'wall_pairing', 'wall_end'].map((table) => here.rows.get(table)!)
  const byCode = await app.query('select lab_id, screen_id, code_id from wall_screen_by_code($1)', [code!.code_hash])
  expect(byCode.rows).toEqual([{ lab_id: here.lab, screen_id: code!.screen_id, code_id: code!.id }])
  const find = async (key: unknown) =>
    (await app.query('select lab_id, screen_id, holds from wall_screen_by_key($1)', [key])).rows
  expect(await find(pairing!.key_hash)).toEqual([{ lab_id: here.lab, screen_id: end!.screen_id, holds: false }])
  expect(await find(randomBytes(32))).toEqual([])
  const [screenId, keys] = [randomUUID(), [randomBytes(32), randomBytes(32)]]
  await insertRow(owner, 'wall_screen', { ...here.rows.get('wall_screen')!, id: screenId })
  // As many as fit into one millisecond of the clock: their order is that of the codes.
  for (const key of keys) {
    const codeId = newId()
    await insertRow(owner, 'wall_code', { ...code!, id: codeId, screen_id: screenId, code_hash: randomBytes(32) })
    await insertRow(owner, 'wall_pairing', { lab_id: here.lab, code_id: codeId, key_hash: key, at: pairing!.at })
  }
  // The browser that was paired last has taken the place of the one before.
  expect((await Promise.all(keys.map(find))).flat().map(({ holds }) => holds)).toEqual([false, true])
})

test('a client sees how far their own projects are, and a staff member asks elsewhere', async () => {
  const client = here.rows.get('client')!.id as string
  await owner.query('update test_now set steps_done = 1, steps_total = 9 where lab_id = $1', [here.lab])
  await asLogin(app, { lab: here.lab, client }, async () =>
    expect(
      (
        await app.query(
          'select project_id, design_state, tests_done, tests_total, steps_done, steps_total, report_id from client_progress()',
        )
      ).rows,
    ).toEqual([
      {
        project_id: here.rows.get('project')!.id,
        design_state: 'draft',
        tests_done: '0',
        tests_total: '1',
        steps_done: '1',
        steps_total: '9',
        report_id: here.rows.get('report')!.id,
      },
    ]),
  )
  await asLogin(app, { lab: here.lab, client: there.rows.get('client')!.id as string }, async () =>
    expect((await app.query('select from client_progress()')).rowCount).toBe(0),
  )
  await asLogin(app, { lab: here.lab }, async () =>
    expect((await app.query('select from client_progress()')).rowCount).toBe(0),
  )
})

test('a report reaches its client and the staff of its laboratory, nobody else', async () => {
  const report = here.rows.get('report')!.id
  const client = here.rows.get('client')!.id as string
  const read = (settings: object) =>
    asLogin(app, settings, async () => [
      (await app.query('select body from client_report_pdf($1)', [report])).rowCount,
      (await app.query('select body from client_report_content($1)', [report])).rowCount,
    ])
  expect(await read({ lab: here.lab })).toEqual([1, 1])
  expect(await read({ lab: here.lab, client })).toEqual([1, 1])
  expect(await read({ lab: here.lab, client: randomUUID() })).toEqual([0, 0])
  expect(await read({ lab: there.lab })).toEqual([0, 0])
  expect(await read({})).toEqual([0, 0])
})

test('anybody with its token learns whether a report is genuine and current', async () => {
  const state = async (hash: unknown) =>
    (await app.query('select state, replaced_by_amendment from check_report($1)', [hash])).rows
  const report = here.rows.get('report')!
  expect(await state(randomBytes(32))).toEqual([])
  expect(await state(report.public_token_hash)).toEqual([{ state: 'current', replaced_by_amendment: null }])
  const amendment = {
    ...report,
    id: randomUUID(),
    amendment: 2,
    replaces_id: report.id,
    public_token_hash: randomBytes(32),
  }
  await insertRow(owner, 'report', amendment)
  expect(await state(report.public_token_hash)).toEqual([{ state: 'superseded', replaced_by_amendment: 2 }])
  expect(await state(amendment.public_token_hash)).toEqual([{ state: 'current', replaced_by_amendment: null }])
  await owner.query(
    `insert into report_event (lab_id, id, report_id, kind, at) values ($1, gen_random_uuid(), $2, 'withdrawn', '2026-03-02')`,
    [here.lab, amendment.id],
  )
  expect(await state(amendment.public_token_hash)).toEqual([{ state: 'withdrawn', replaced_by_amendment: null }])
})

test('numbers run from one without gap or double, whoever takes them at once', async () => {
  const clients = await Promise.all([1, 2, 3, 4].map(() => connect(database.appUrl)))
  const take = async (client: Client) => {
    await client.query('begin')
    await client.query(`select set_config('app.lab', $1, true)`, [here.lab])
    const { rows } = await client.query<{ number: string }>(`select next_number('report') as number`)
    await client.query('commit')
    return Number(rows[0]!.number)
  }
  const taken = await Promise.all(clients.map(take))
  await Promise.all(clients.map((client) => client.end()))
  expect(taken.sort()).toEqual([1, 2, 3, 4])
  await asLogin(app, {}, async () => expect(await refusalOf(app.query(`select next_number('report')`))).toBe('42501'))
})

test('whether any laboratory stands here is known without seeing one', async () => {
  expect((await app.query('select laboratory_exists()')).rows).toEqual([{ laboratory_exists: true }])
  const { rows } = await app.query<{ id: string }>('select laboratory_ids() as id')
  expect(rows.map(({ id }) => id).sort()).toEqual([here.lab, there.lab].sort())
})

test('nobody executes a function that was not granted to them', async () => {
  const { rows } = await owner.query<{ login: string; name: string }>(`
    select r.rolname as login, p.proname as name from pg_proc p cross join pg_roles r
    where p.pronamespace = 'public'::regnamespace and r.rolname in ('curebook_app', 'curebook_identity', 'curebook_sealer') and has_function_privilege(r.oid, p.oid, 'execute') order by 1, 2`)
  const may = (login: string) => rows.filter((row) => row.login === login).map(({ name }) => name)
  expect(may('curebook_app')).toEqual([
    'check_report',
    'client_progress',
    'client_report_content',
    'client_report_pdf',
    'client_specifications',
    'enqueue',
    'enter',
    'instrument_by_key',
    'invitation_by_token',
    'laboratory_exists',
    'laboratory_ids',
    'memberships_of',
    'next_number',
    'wall_screen_by_code',
    'wall_screen_by_key',
  ])
  expect(may('curebook_identity')).toEqual([])
  expect(may('curebook_sealer')).toEqual(['seal_ledger'])
})
