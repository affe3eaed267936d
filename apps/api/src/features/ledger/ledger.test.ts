import { Client } from 'pg'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { canonicalJson, sha256 } from '#platform/canonical-json'
import { ledgerContentOf } from '#platform/ledger-content'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let owner: Client
/** Links of the chain when the laboratory was made. */
let base: number
beforeAll(async () => {
  testApp = await startTestApp()
  owner = new Client({ connectionString: testApp.ownerUrl })
  await owner.connect()
})
afterAll(async () => {
  await owner.end()
  await testApp.close()
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  base = (await testApp.services.ledger.head(lab.people.auditor.actor)).seq
})

const verify = async (body: object = {}, who: 'manager' | 'auditor' = 'auditor') =>
  (await lab.as(who).post(lab.path('/ledger/verify')).send(body).expect(200)).body
const rename = (name: string) =>
  testApp.services.laboratories
    .read(lab.people.manager.actor)
    .then(({ version }) => testApp.services.laboratories.update(lab.people.manager.actor, version, { name }))

/** Somebody with the database's owner rights and no scruples: guards off, one statement, guards on. */
async function tamper(statement: string, values: unknown[] = []): Promise<void> {
  await owner.query('begin')
  await owner.query("set local session_replication_role = 'replica'")
  const { rowCount } = await owner.query(statement, values)
  await owner.query('commit')
  expect(rowCount).toBeGreaterThan(0)
}

/** A reading, a result and a signature, each under an entry, as the features write them. */
async function makeRecords() {
  const { actor } = lab.people.technician
  const { labId, membershipId: byId } = actor
  return testApp.services.laboratory.inLaboratory(actor, async ({ prisma, at, record }) => {
    const id = { item: newId(), project: newId(), design: newId(), revision: newId(), content: newId() }
    await prisma.item.createMany({ data: [{ labId, id: id.item, kind: 'sample', code: 'A7KX', madeAt: at, byId, at }] })
    await prisma.project.createMany({
      data: [
        {
          labId,
          id: id.project,
          clientId: lab.clientId,
          code: 'P1',
          name: 'Lane 4',
          kind: 'full',
          reportTo: '',
          copiesTo: '',
          statusWord: 'received',
          createdAt: at,
        },
      ],
    })
    await prisma.design.createMany({
      data: [{ labId, id: id.design, projectId: id.project, name: 'Design', kind: 'full', createdAt: at }],
    })
    await prisma.designRevision.createMany({
      data: [
        {
          labId,
          id: id.revision,
          designId: id.design,
          number: 1,
          basis: 'dry-aggregate',
          fractionUsed: '0/8',
          scalpedPercent: '0',
          state: 'draft',
          createdAt: at,
        },
      ],
    })
    const body = canonicalJson({ schema: '1' })
    await prisma.signedContent.createMany({
      data: [
        {
          labId,
          id: id.content,
          kind: 'revision',
          subjectId: id.revision,
          schema: 1,
          body,
          dig: new Uint8Array(sha256(body)),
          byId,
          at,
        },
      ],
    })

    const reading = {
      labId,
      id: newId(),
      itemId: id.item,
      stepKey: 'receive',
      key: 'mass',
      repeat: 1,
      kind: 'number',
      typed: '812,40',
      value: '812.40',
      unit: 'g',
      eventAt: at,
      eventFrom: 'now',
      receivedAt: at,
      transcribed: false,
      confirmedOdd: false,
      actorKind: 'person',
      requestDig: new Uint8Array(32),
      byId,
      at,
    }
    const result = {
      labId,
      id: newId(),
      level: 'revision',
      designRevisionId: id.revision,
      key: 'residue',
      madeBy: 'entered',
      valueText: '62.0',
      value: '62.0',
      unit: '%',
      source: 'Certificate 12',
      observedOn: new Date('2026-03-01T00:00:00Z'),
      byId,
      at,
    }
    const signature = {
      labId,
      id: newId(),
      signedContentId: id.content,
      dig: new Uint8Array(sha256(body)),
      meaning: 'approved',
      signerId: byId,
      printedName: 'Person technician',
      printedRole: 'technician',
      statement: 'Approved',
      authenticatedAt: at,
      means: 'password',
      byId,
      at,
    }
    await prisma.reading.createMany({ data: [reading] })
    await prisma.result.createMany({ data: [result] })
    await prisma.signature.createMany({ data: [signature] })
    record({
      action: 'reading:create',
      subjectKind: 'reading',
      subjectId: reading.id,
      topics: [],
      rows: [ledgerContentOf('reading', reading), ledgerContentOf('result', result)],
    })
    record({
      action: 'revision:approve',
      subjectKind: 'revision',
      subjectId: id.revision,
      topics: [],
      rows: [ledgerContentOf('signature', signature)],
    })
    return { reading: reading.id, result: result.id, signature: signature.id }
  })
}

describe('the ledger', () => {
  test('is whole after ordinary work, readings, results and signatures included', async () => {
    await makeRecords()
    await rename('Tern Hollow')
    expect(await verify()).toMatchObject({
      whole: true,
      firstBreak: null,
      entries: base + 3,
      unsealed: 0,
      rowsCompared: 3,
      head: { seq: base + 3 },
    })
  })

  test('shows its entries, the latest first, page by page', async () => {
    for (const name of ['One', 'Two', 'Three', 'Four']) await rename(name)
    const first = await lab.as('auditor').get(lab.path('/ledger/entries?limit=3')).expect(200)
    expect(first.body.items.map(({ seq }: { seq: number }) => seq)).toEqual([base + 4, base + 3, base + 2])
    const second = await lab
      .as('auditor')
      .get(lab.path(`/ledger/entries?limit=200&cursor=${first.body.next}`))
      .expect(200)
    const rest = second.body.items.map(({ seq, action }: { seq: number; action: string }) => [seq, action])
    expect(rest).toHaveLength(base + 1)
    expect([rest[0], rest.at(-1)]).toEqual([
      [base + 1, 'laboratory:update'],
      [1, 'laboratory:create'],
    ])
    expect(second.body.next).toBeNull()
    const [entry] = first.body.items
    expect(sha256(entry.content).toString('hex')).toBe(entry.digest)
    expect(canonicalJson(JSON.parse(entry.content))).toBe(entry.content)
    await lab.as('technician').get(lab.path('/ledger/entries')).expect(403)
  })

  test('names the row whose value was changed', async () => {
    const { reading } = await makeRecords()
    await tamper('update reading set value = 812.5 where id = $1', [reading])
    const verdict = await verify()
    expect(verdict).toMatchObject({
      whole: false,
      firstBreak: { kind: 'row-altered', table: 'reading', rowId: reading, seq: base + 1 },
    })
    expect(verdict.firstBreak.message).toContain('its value is "812.5", the ledger says "812.4"')
  })

  test('notices any column of a reading, a result and a signature', async () => {
    const records = await makeRecords()
    for (const [table, change, back] of [
      ['reading', "typed = '812.4'", "typed = '812,40'"],
      ['reading', "note = 'warm'", 'note = null'],
      ['result', "observed_on = '2026-02-28'", "observed_on = '2026-03-01'"],
      ['result', "source = 'Certificate 13'", "source = 'Certificate 12'"],
      ['signature', "meaning = 'reviewed'", "meaning = 'approved'"],
    ] as const) {
      await tamper(`update ${table} set ${change} where id = $1`, [records[table]])
      expect((await verify()).firstBreak).toMatchObject({ kind: 'row-altered', table, rowId: records[table] })
      await tamper(`update ${table} set ${back} where id = $1`, [records[table]])
    }
    expect((await verify()).whole).toBe(true)
  })

  test('names the row that was deleted, and the one that nobody wrote', async () => {
    const { reading, result } = await makeRecords()
    await tamper(
      "insert into reading select lab_id, gen_random_uuid() as id, test_id, item_id, load_id, instrument_check_id, step_key, 'other', repeat, kind, typed, value, unit, choice, instrument_id, calibration_id, attachment_id, event_at, event_from, sent_at, received_at, offset_ms, device_id, transcribed, confirmed_odd, actor_kind, request_dig, note, supersedes_id, reason, by_id, at, written_at from reading where id = $1",
      [reading],
    )
    expect((await verify()).firstBreak).toMatchObject({ kind: 'row-without-entry', table: 'reading' })
    await tamper('delete from result where id = $1', [result])
    expect((await verify()).firstBreak).toMatchObject({ kind: 'row-missing', table: 'result', rowId: result })
  })

  test('names the entry whose words or columns were changed, and the one that was deleted', async () => {
    await rename('One')
    await rename('Two')
    await verify()
    const { rows } = await owner.query('select entry_id from ledger_seal where lab_id = $1 and seq = $2', [
      lab.labId,
      base + 1,
    ])
    const entryId = rows[0].entry_id as string
    await owner.query('alter table ledger_entry drop constraint if exists ledger_entry_dig_of_content')
    await tamper('update ledger_entry set content = replace(content, $2, $3) where id = $1', [
      entryId,
      '"One"',
      '"Uno"',
    ])
    expect((await verify()).firstBreak).toMatchObject({ kind: 'entry-altered', seq: base + 1, entryId })
    await tamper('update ledger_entry set content = replace(content, $2, $3) where id = $1', [
      entryId,
      '"Uno"',
      '"One"',
    ])
    await tamper("update ledger_entry set at = at - interval '1 day' where id = $1", [entryId])
    expect((await verify()).firstBreak).toMatchObject({
      kind: 'entry-columns-differ',
      message: expect.stringContaining('its time'),
    })
    await tamper('delete from ledger_entry where id = $1', [entryId])
    expect((await verify()).firstBreak).toMatchObject({ kind: 'entry-missing', seq: base + 1 })
    await tamper('delete from ledger_seal where lab_id = $1 and seq = $2', [lab.labId, base + 1])
    expect((await verify()).firstBreak).toMatchObject({
      kind: 'chain-broken',
      seq: base + 2,
      message: `After link ${base} comes link ${base + 2}: what stood between was deleted.`,
    })
  })

  test('whose tail was cut off is found out by a printed head', async () => {
    await rename('One')
    await rename('Two')
    const { body: print } = await lab
      .as('manager')
      .post(lab.path('/ledger/head-prints'))
      .send({ id: newId(), place: 'Safe in the office' })
      .expect(201)
    expect(print).toMatchObject({ seq: base + 2, place: 'Safe in the office', by: { name: 'Person manager' } })
    // The cut takes the print's own entry and its row along: only the paper is left.
    await tamper(
      'with cut as (delete from ledger_seal where lab_id = $1 and seq >= $2 returning entry_id) delete from ledger_entry where id in (select entry_id from cut)',
      [lab.labId, base + 2],
    )
    await tamper(
      'delete from ledger_entry e where lab_id = $1 and not exists (select from ledger_seal s where s.entry_id = e.id)',
      [lab.labId],
    ).catch(() => undefined)
    await tamper('delete from ledger_head_print where lab_id = $1', [lab.labId])
    expect(await verify()).toMatchObject({ whole: true, head: { seq: base + 1 } })
    expect((await verify({ printed: { seq: print.seq, hash: print.hash } })).firstBreak).toMatchObject({
      kind: 'tail-missing',
      seq: base + 2,
    })
  })

  test('whose head is printed twice at once by one press is printed once', async () => {
    const body = { id: newId(), place: 'Safe in the office' }
    const other = await testApp.startAnother()
    const print = (url?: string) => async () => lab.as('manager', url).post(lab.path('/ledger/head-prints')).send(body)
    const { membershipId } = lab.people.manager.actor
    const held = { sql: 'select from membership where id = $1 for update', values: [membershipId] }
    const [first, second] = await atOnce(testApp.ownerUrl, held, print(), print(other.url))
    await other.close()
    if (first.status !== 'fulfilled' || second.status !== 'fulfilled') throw new Error('Both are answered.')
    expect([first.value.status, second.value.status]).toEqual([201, 201])
    expect(second.value.body).toEqual(first.value.body)
    const { body: heads } = await lab.as('auditor').get(lab.path('/ledger/head-prints')).expect(200)
    expect(heads).toHaveLength(1)
  })

  test('that was made anew from a changed entry on is found out by a printed head', async () => {
    await rename('One')
    await rename('Two')
    const { body: head } = await lab.as('auditor').get(lab.path('/ledger/head')).expect(200)
    // A forger who knows the rules: new words, new digest, every hash after it again.
    const { rows } = await owner.query(
      'select s.seq, s.entry_id, e.content from ledger_seal s join ledger_entry e on e.id = s.entry_id where s.lab_id = $1 order by s.seq',
      [lab.labId],
    )
    let previous: Buffer = Buffer.alloc(32)
    for (const { seq, entry_id, content } of rows) {
      const forged = (content as string).replaceAll('"One"', '"Uno"')
      const digest = sha256(forged)
      await tamper('update ledger_entry set content = $2, dig = $3 where id = $1', [entry_id, forged, digest])
      await tamper('update ledger_seal set previous = $2, hash = sha256($2::bytea || $3::bytea) where entry_id = $1', [
        entry_id,
        previous,
        digest,
      ])
      previous = (await owner.query('select hash from ledger_seal where lab_id = $1 and seq = $2', [lab.labId, seq]))
        .rows[0].hash
    }
    expect((await verify()).whole).toBe(true)
    expect((await verify({ printed: { seq: head.seq, hash: head.hash } })).firstBreak).toMatchObject({
      kind: 'head-differs',
      seq: base + 2,
    })
  })

  test('is compared with every head that was printed here', async () => {
    const { body: print } = await lab
      .as('manager')
      .post(lab.path('/ledger/head-prints'))
      .send({ id: newId(), place: 'Binder' })
      .expect(201)
    await rename('One')
    expect(await verify()).toMatchObject({ whole: true, headsCompared: 1 })
    await tamper('update ledger_head_print set hash = $2 where id = $1', [print.id, Buffer.alloc(32, 1)])
    expect((await verify()).firstBreak).toMatchObject({ kind: 'head-differs', seq: print.seq })
  })
})
