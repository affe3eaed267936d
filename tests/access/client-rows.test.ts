import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { readToken } from '../../apps/api/src/platform/session-cookie.ts'
import { startTestApp, testSecret, type TestApp } from '../support/app.ts'
import { filledLaboratory, type FilledLaboratory } from './filled-laboratory.ts'

vi.setConfig({ testTimeout: 300_000, hookTimeout: 300_000 })

let testApp: TestApp
let home: FilledLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  home = await filledLaboratory(testApp)
})
afterAll(() => testApp.close())

/** What a client's session may read rows of: its own. Of every other table there is, none: of a new one too. */
const open = [
  'client',
  'expected_day',
  'laboratory',
  'mail_wish',
  'membership',
  'project',
  'question',
  'question_answer',
  'report',
  'report_event',
  'request_key',
]

/** Every table that the application's login can read. */
async function readableTables(): Promise<string[]> {
  const { rows } = await testApp.database.pool.query<{ table: string }>(
    `select relname as table from pg_class
      where relnamespace = 'public'::regnamespace and relkind in ('r', 'v', 'm', 'p') and has_table_privilege(oid, 'select') order by relname`,
  )
  return rows.map(({ table }) => table)
}

/** What a session of this person counts in a table, entered as a request enters: by its token, in the database. */
async function rowsSeen(person: { cookie: string }, tables: readonly string[]): Promise<Record<string, number>> {
  const client = await testApp.database.pool.connect()
  const name = person.cookie.slice(0, person.cookie.indexOf('='))
  try {
    await client.query('begin')
    const { rows } = await client.query('select * from enter($1, $2::uuid)', [
      readToken(person.cookie, name, testSecret),
      home.lab.labId,
    ])
    expect(rows[0].membership_id).not.toBeNull()
    const seen: Record<string, number> = {}
    for (const table of tables) seen[table] = (await client.query(`select count(*)::int as n from ${table}`)).rows[0].n
    return seen
  } finally {
    await client.query('rollback')
    client.release()
  }
}

describe('the database itself', () => {
  it('returns no row of the bench to a client’s session, and all of them to the laboratory’s', async () => {
    const tables = await readableTables()
    expect(tables.filter((table) => open.includes(table))).toEqual(open)
    const closed = tables.filter((table) => !open.includes(table))
    const asClient = await rowsSeen(home.lab.people.client, closed)
    expect(Object.entries(asClient).filter(([, count]) => count > 0)).toEqual([])
    const asTechnician = await rowsSeen(home.lab.people.technician, closed)
    for (const table of ['item', 'reading', 'result', 'deviation'])
      expect(asTechnician[table], table).toBeGreaterThan(0)
  })

  it('returns the client’s own report and project, and to another client neither', async () => {
    const told = ['report', 'project', 'question', 'question_answer', 'expected_day']
    const each = (count: number) => Object.fromEntries(told.map((table) => [table, count]))
    expect(await rowsSeen(home.lab.people.client, told)).toEqual(each(1))
    expect(await rowsSeen(home.lab.people.otherClient, told)).toEqual(each(0))
  })

  it('returns nothing before a session is entered', async () => {
    for (const table of await readableTables()) {
      const { rows } = await testApp.database.pool.query(`select count(*)::int as n from ${table}`)
      expect(rows[0].n, table).toBe(0)
    }
  })

  it('opens nothing to a client who names another laboratory’s or another client’s settings', async () => {
    const { client } = home.lab.people
    const seen = await testApp.services.laboratory.inLaboratorySql(
      client.actor,
      async (sql) =>
        (
          await sql.query(
            'select (select count(*) from reading)::int as readings, (select count(*) from item)::int as items, (select count(*) from result)::int as results, (select count(*) from deviation)::int as deviations',
          )
        ).rows[0],
    )
    expect(seen).toEqual({ readings: 0, items: 0, results: 0, deviations: 0 })
  })
})
