import { randomUUID } from 'node:crypto'
import type { Client } from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { asLogin, connect, insertRow, refusalOf } from '../../../tests/support/as-login.ts'
import { cloneDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory, type FilledLaboratory } from '../../../tests/support/fill-laboratory.ts'

let database: Awaited<ReturnType<typeof cloneDatabase>>
let owner: Client
let app: Client
let here: FilledLaboratory
let first: Record<string, unknown>

beforeAll(async () => {
  database = await cloneDatabase()
  ;[owner, app] = await Promise.all([connect(database.ownerUrl), connect(database.appUrl)])
  here = await fillLaboratory(owner)
  first = here.rows.get('reading')!
})

afterAll(async () => {
  await Promise.all([owner.end(), app.end()])
  await database.drop()
})

/** Posts a copy of a row with some columns changed, as the application in its laboratory. */
const post = (table: string, changes: Record<string, unknown>) =>
  insertRow(app, table, { ...here.rows.get(table), id: randomUUID(), ...changes })
const refused = (table: string, changes: Record<string, unknown>) =>
  asLogin(app, { lab: here.lab }, () => refusalOf(post(table, changes)))

test('a slot has one first entry; another repeat is another slot', async () => {
  expect(await refused('reading', {})).toBe('23505')
  expect(await refused('reading', { repeat: 2 })).toBe('accepted')
})

test('the first entry of a slot stands once for items, loads and instrument checks too', async () => {
  for (const subject of ['item', 'load', 'instrument_check']) {
    const changes = { test_id: null, [`${subject}_id`]: here.rows.get(subject)!.id }
    await asLogin(app, { lab: here.lab }, async () => {
      expect(await refusalOf(post('reading', changes))).toBe('accepted')
      expect(await refusalOf(post('reading', changes))).toBe('23505')
    })
  }
})

test('a correction supersedes once: chains do not fork', async () => {
  const correction = { supersedes_id: first.id, reason: 'digits transposed', typed: '821.40', value: '821.40' }
  await asLogin(app, { lab: here.lab }, async () => {
    expect(await refusalOf(post('reading', correction))).toBe('accepted')
    expect(await refusalOf(post('reading', correction))).toBe('23505')
  })
})

test('a correction gives its reason, a first entry has none', async () => {
  expect(await refused('reading', { supersedes_id: first.id })).toBe('23514')
  expect(await refused('reading', { repeat: 2, reason: 'why' })).toBe('23514')
})

test('a correction stays in the slot of what it supersedes', async () => {
  const correction = { supersedes_id: first.id, reason: 'wrong disc' }
  for (const elsewhere of [{ repeat: 2 }, { key: 'y' }, { step_key: 'y' }])
    expect(await refused('reading', { ...correction, ...elsewhere })).toBe('CB002')
})

test('two people correcting at once: one gets through, the other is refused', async () => {
  const second = await connect(database.appUrl)
  try {
    const correct = async (client: Client) => {
      await client.query('begin')
      await client.query(`select set_config('app.lab', $1, true)`, [here.lab])
      const correction = { ...first, id: randomUUID(), supersedes_id: first.id, reason: 'slip' }
      const outcome = await refusalOf(insertRow(client, 'reading', correction))
      await client.query(outcome === 'accepted' ? 'commit' : 'rollback')
      return outcome
    }
    expect((await Promise.all([correct(app), correct(second)])).sort()).toEqual(['23505', 'accepted'])
  } finally {
    await second.end()
  }
})

test('a reading has one subject, a number where it is one, and never NaN', async () => {
  expect(await refused('reading', { repeat: 2, item_id: here.rows.get('item')!.id })).toBe('23514')
  expect(await refused('reading', { repeat: 2, value: null })).toBe('23514')
  expect(await refused('reading', { repeat: 2, kind: 'text' })).toBe('23514')
  expect(await refused('reading', { repeat: 2, value: 'NaN' })).toBe('23514')
  expect(await refused('reading', { repeat: 2, kind: 'guess' })).toBe('23514')
})

test('digits stay as sent', async () => {
  const { rows } = await owner.query<{ digits: string }>('select value::text as digits from reading where id = $1', [
    first.id,
  ])
  expect(rows).toEqual([{ digits: '812.40' }])
})

test('a result is a value, a choice or a refusal, and says what computed it or where it came from', async () => {
  const other = { key: 'loss' }
  expect(await refused('result', { ...other })).toBe('accepted')
  expect(await refused('result', { ...other, value: null, value_text: null })).toBe('23514')
  expect(await refused('result', { ...other, choice: 'NS' })).toBe('23514')
  expect(await refused('result', { ...other, source: null })).toBe('23514')
  expect(await refused('result', { ...other, made_by: 'computed' })).toBe('23514')
  expect(await refused('result', { ...other, mix_id: here.rows.get('mix')!.id })).toBe('23514')
})

test('a computed result stands once for a test, key and unit', async () => {
  const edition = here.rows.get('method_edition')!
  const computed = {
    made_by: 'computed',
    method_key: 'm',
    computation: 1,
    build: 'b',
    edition_id: edition.id,
    edition_dig: edition.dig,
    key: 'loss',
  }
  await asLogin(app, { lab: here.lab }, async () => {
    expect(await refusalOf(post('result', { ...computed, unit: 'g/m²' }))).toBe('accepted')
    expect(await refusalOf(post('result', { ...computed, unit: 'g/ft²' }))).toBe('accepted')
    expect(await refusalOf(post('result', { ...computed, unit: 'g/m²' }))).toBe('23505')
  })
})

test('a step starts, ends and is voided once; it may be observed often', async () => {
  const act = { step_key: 'cure' }
  await asLogin(app, { lab: here.lab }, async () => {
    for (const kind of ['start', 'end', 'observe', 'observe'])
      expect(await refusalOf(post('step_event', { ...act, kind }))).toBe('accepted')
    expect(await refusalOf(post('step_event', { ...act, kind: 'end' }))).toBe('23505')
  })
})

test('an item is not its own parent', async () => {
  const item = here.rows.get('item')!.id
  const lineage = { lab_id: here.lab, child_id: item, parent_id: item }
  await asLogin(app, { lab: here.lab }, async () =>
    expect(await refusalOf(insertRow(app, 'item_parent', lineage))).toBe('23514'),
  )
})

test('the role client stands alone and names its client', async () => {
  const person = { account_id: randomUUID() }
  const client = here.rows.get('client')!.id
  expect(await refused('membership', { ...person, roles: ['client'], client_id: client })).toBe('accepted')
  expect(await refused('membership', { ...person, roles: ['client'], client_id: null })).toBe('23514')
  expect(await refused('membership', { ...person, roles: ['client', 'engineer'], client_id: client })).toBe('23514')
  expect(await refused('membership', { ...person, roles: ['engineer'], client_id: client })).toBe('23514')
  expect(await refused('membership', { ...person, roles: ['owner'] })).toBe('23514')
  expect(await refused('membership', { ...person, roles: [] })).toBe('23514')
})
