import { Client } from 'pg'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { filledLaboratory, type FilledLaboratory } from '../../../../../tests/access/filled-laboratory.ts'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'

let testApp: TestApp
let home: FilledLaboratory
let owner: Client
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  home = await filledLaboratory(testApp)
  owner = new Client({ connectionString: testApp.ownerUrl })
  await owner.connect()
  // Whoever may change a row may take off what the table says of its rows.
  await owner.query('alter table signed_content drop constraint signed_content_dig_of_body')
})
afterAll(async () => {
  await owner.end()
  await testApp.close()
})

const verify = async () =>
  (await home.lab.as('auditor').post(home.lab.path('/ledger/verify')).send({}).expect(200)).body

/** What the check says while a statement of the database's owner stands; afterwards everything is as it was. */
async function afterTampering(table: string, change: string, where = 'true'): Promise<Record<string, unknown>> {
  const as = async (statement: string) => {
    await owner.query('begin')
    await owner.query("set local session_replication_role = 'replica'")
    await owner.query(statement)
    await owner.query('commit')
  }
  const one = `lab_id = '${home.lab.labId}' and ${where}`
  await as(`create table kept as select * from ${table} where ${one} limit 1`)
  const { rows } = await owner.query(
    `select string_agg(format('%1$I = k.%1$I', a.attname), ', ') as columns,
            string_agg(format('t.%1$I is not distinct from k.%1$I', a.attname), ' and ') filter (where a.attnum = any(i.indkey)) as same
       from pg_attribute a join pg_index i on i.indrelid = a.attrelid and i.indisprimary
      where a.attrelid = $1::regclass and a.attnum > 0 and not a.attisdropped`,
    [table],
  )
  try {
    await as(
      change === 'delete'
        ? `delete from ${table} t using kept k where ${rows[0].same}`
        : `update ${table} t set ${change} from kept k where ${rows[0].same}`,
    )
    return await verify()
  } finally {
    await as(
      change === 'delete'
        ? `insert into ${table} select * from kept`
        : `update ${table} t set ${rows[0].columns} from kept k where ${rows[0].same}`,
    )
    await owner.query('drop table kept')
  }
}

describe('a design that was worked through, signed and issued', () => {
  test('is whole, and every row that an entry holds is compared', async () => {
    const verdict = await verify()
    expect(verdict).toMatchObject({ whole: true, firstBreak: null })
    const { rows } = await owner.query(
      `select sum(jsonb_array_length(content::jsonb -> 'rows'))::int as held from ledger_entry where lab_id = $1`,
      [home.lab.labId],
    )
    expect(verdict.rowsCompared).toBe(rows[0].held)
  })

  test.each([
    ['step_event', "event_at = t.event_at - interval '20 minutes'"],
    ['step_event', "note = 'Told late'"],
    ['window_outcome', "outcome = 'met', margin_s = 60"],
    ['deviation', "text = 'Nothing happened.'"],
    ['deviation_event', "kind = 'close'"],
    ['custody_event', "event_at = t.event_at - interval '1 day'"],
  ])('one of whose %s was changed by %s is found out', async (table, change) => {
    const where = table === 'window_outcome' ? "outcome <> 'met'" : 'true'
    expect(await afterTampering(table, change, where)).toMatchObject({
      whole: false,
      firstBreak: { kind: 'row-altered', table },
    })
    expect((await verify()).whole).toBe(true)
  })

  test.each(['step_event', 'window_outcome', 'deviation_event', 'signed_content'])(
    'one of whose %s was deleted is found out',
    async (table) => {
      expect(await afterTampering(table, 'delete')).toMatchObject({
        whole: false,
        firstBreak: { kind: 'row-missing', table },
      })
      expect((await verify()).whole).toBe(true)
    },
  )

  test('is found out by what was signed, by its file, its number and its client, and by what was attached', async () => {
    for (const [table, change, where, found] of [
      [
        'signed_content',
        "body = replace(t.body, '7', '8'), dig = sha256(convert_to(replace(t.body, '7', '8'), 'UTF8'))",
        'true',
        'signed_content',
      ],
      [
        'method_edition',
        'parameters = replace(t.parameters, \'"value":"60"\', \'"value":"90"\')',
        'id in (select edition_id from result)',
        'method_edition',
      ],
      ['report', "number = 'X-1'", 'true', 'report'],
      ['report', `client_id = '${home.lab.otherClientId}'`, 'true', 'report'],
      ['attachment_body', "body = t.body || '\\x20'", `attachment_id = '${home.subjects.attachment}'`, 'attachment'],
      ['attachment_body', "body = t.body || '\\x20'", `attachment_id <> '${home.subjects.attachment}'`, 'report'],
    ] as const) {
      expect(await afterTampering(table, change, where), `${table} ${change}`).toMatchObject({
        whole: false,
        firstBreak: { kind: 'row-altered', table: found },
      })
    }
    expect((await verify()).whole).toBe(true)
  })

  test('is found out by an act that nobody wrote', async () => {
    await owner.query('begin')
    await owner.query("set local session_replication_role = 'replica'")
    const { rows } = await owner.query(
      `insert into step_event (lab_id, id, test_id, step_key, kind, event_at, event_from, received_at, by_id, at)
       select lab_id, gen_random_uuid(), test_id, 'other', kind, event_at, event_from, received_at, by_id, at from step_event where lab_id = $1 limit 1
       returning id`,
      [home.lab.labId],
    )
    await owner.query('commit')
    expect((await verify()).firstBreak).toMatchObject({
      kind: 'row-without-entry',
      table: 'step_event',
      rowId: rows[0].id,
    })
  })
})
