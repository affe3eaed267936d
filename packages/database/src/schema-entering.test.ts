import { randomBytes } from 'node:crypto'
import type { Client } from 'pg'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { asLogin, connect } from '../../../tests/support/as-login.ts'
import { cloneDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory, type FilledLaboratory } from '../../../tests/support/fill-laboratory.ts'

let database: Awaited<ReturnType<typeof cloneDatabase>>
let owner: Client
let app: Client
let here: FilledLaboratory
let there: FilledLaboratory
let account: string
let token: string

beforeAll(async () => {
  database = await cloneDatabase()
  ;[owner, app] = await Promise.all([connect(database.ownerUrl), connect(database.appUrl)])
  here = await fillLaboratory(owner)
  there = await fillLaboratory(owner)
  account = here.rows.get('membership')!.account_id as string
  await owner.query(
    `insert into identity_user (id, name, email, created_at, updated_at) values ($1, 'x', 'x@lab.example', now(), now())`,
    [account],
  )
})

beforeEach(async () => {
  token = await signIn('0 minutes', '0 minutes')
})

afterAll(async () => {
  await Promise.all([owner.end(), app.end()])
  await database.drop()
})

/** A session made and last seen so long ago; returns its token. */
async function signIn(made: string, seen: string): Promise<string> {
  const made_token = randomBytes(16).toString('hex')
  await owner.query(
    `insert into identity_session (id, token, user_id, expires_at, created_at, updated_at, last_seen_at)
     values (gen_random_uuid(), $1, $2, now() + interval '7 days', now() - $3::interval, now(), now() - $4::interval)`,
    [made_token, account, made, seen],
  )
  return made_token
}
const enter = async (session: string, lab: string, at: string | null = null) =>
  (await app.query('select * from enter($1, $2, $3)', [session, lab, at])).rows

test('entering gives the actor and sets what row-level security reads', async () => {
  await asLogin(app, {}, async () => {
    expect(await enter(token, here.lab)).toMatchObject([
      { account_id: account, membership_id: here.rows.get('membership')!.id, roles: ['manager'], client_id: null },
    ])
    expect((await app.query('select lab_id from reading')).rows).toEqual([{ lab_id: here.lab }])
    expect(
      (await app.query(`select current_setting('app.roles') as roles, current_setting('app.member') as member`)).rows,
    ).toEqual([{ roles: 'manager', member: here.rows.get('membership')!.id }])
  })
  await asLogin(app, {}, async () => expect((await app.query('select from reading')).rowCount).toBe(0))
})

test('a session lives twelve hours at most and one hour idle', async () => {
  const sessions = [
    ['11 hours 59 minutes', '0 minutes', 1],
    ['12 hours 1 minute', '0 minutes', 0],
    ['2 hours', '59 minutes', 1],
    ['2 hours', '61 minutes', 0],
  ] as const
  for (const [made, seen, rows] of sessions) {
    const session = await signIn(made, seen)
    await asLogin(app, {}, async () =>
      expect([made, seen, (await enter(session, here.lab)).length]).toEqual([made, seen, rows]),
    )
  }
  await asLogin(app, {}, async () => expect(await enter('no such token', here.lab)).toEqual([]))
})

test('without a session nothing stays set from before', async () => {
  await asLogin(app, { lab: here.lab }, async () => {
    await enter('no such token', here.lab)
    expect((await app.query('select from reading')).rowCount).toBe(0)
  })
})

test('a signed-in person who is no member there enters no laboratory', async () => {
  await asLogin(app, {}, async () => {
    expect(await enter(token, there.lab)).toMatchObject([{ account_id: account, membership_id: null, roles: null }])
    expect((await app.query('select from reading')).rowCount).toBe(0)
  })
})

test('a membership counts from its first to its last moment, by the clock that is passed', async () => {
  const membership = here.rows.get('membership')!.id
  await owner.query(`update membership set valid_until = '2026-04-01T00:00:00Z' where id = $1`, [membership])
  for (const [at, member] of [
    ['2026-03-01T00:00:00Z', null],
    ['2026-03-02T08:00:00Z', membership],
    ['2026-04-01T00:00:00Z', null],
  ])
    await asLogin(app, {}, async () =>
      expect([at, (await enter(token, here.lab, at as string))[0].membership_id]).toEqual([at, member]),
    )
  await owner.query('update membership set valid_until = null where id = $1', [membership])
})

test('entering is noted at most once a minute, and in a read-only transaction not at all', async () => {
  const seen = async (session: string) =>
    (
      await owner.query<{ ago: number }>(
        'select extract(epoch from now() - last_seen_at)::float as ago from identity_session where token = $1',
        [session],
      )
    ).rows[0]!.ago
  const session = await signIn('1 hour', '10 minutes')
  await app.query('begin read only')
  expect(await enter(session, here.lab)).toHaveLength(1)
  await app.query('commit')
  expect(await seen(session)).toBeGreaterThan(590)
  await enter(session, here.lab)
  expect(await seen(session)).toBeLessThan(60)
  const fresh = await signIn('1 hour', '30 seconds')
  await enter(fresh, here.lab)
  expect(await seen(fresh)).toBeGreaterThan(29)
})

test('a request does not wait for another one that holds the session', async () => {
  const session = await signIn('1 hour', '10 minutes')
  const other = await connect(database.appUrl)
  try {
    await other.query('begin')
    await other.query('select * from enter($1, $2)', [session, here.lab])
    await app.query(`set lock_timeout = '200ms'`)
    expect(await enter(session, here.lab)).toHaveLength(1)
  } finally {
    await app.query('reset lock_timeout')
    await other.end()
  }
})

test('a person finds the laboratories they may enter, and no others', async () => {
  expect((await app.query('select lab_id, roles from memberships_of($1)', [token])).rows).toEqual([
    { lab_id: here.lab, roles: ['manager'] },
  ])
  expect((await app.query('select from memberships_of($1)', ['no such token'])).rowCount).toBe(0)
})
