import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import request from 'supertest'
import type { ConditionLog } from '@curebook/contract/conditions'
import { rowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import type { TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { soakDiscs } from '../../../../../tests/support/factories/soaking.ts'
import { lockDeviation } from './linked-deviations.repository.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-06T08:00:00Z' })
})
afterAll(() => testApp.close())

const soaking = () => soakDiscs(testApp)

const after = (minutes: number) => new Date(testApp.clock.now().getTime() + minutes * 60_000).toISOString()
const value = (at: string, typed: string) => ({ id: newId(), at, value: typed })
const add = (lab: TestLaboratory, instrument: string, values: object[], url?: string) =>
  lab
    .as('technician', url)
    .post(lab.path(`/instruments/${instrument}/conditions`))
    .send({ values })
const log = async (lab: TestLaboratory, instrument: string) =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/instruments/${instrument}/conditions`))
      .expect(200)
  ).body as ConditionLog
const deviations = async (lab: TestLaboratory, open = true) =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open, designId: null })).items
const accept = (lab: TestLaboratory, id: string, shown?: string) =>
  testApp.services.deviations.decide(lab.people.engineer.actor, id, {
    id: newId(),
    kind: 'accept',
    reason: 'Two degrees for a night do not change the soak',
    spareTestId: null,
    ...(shown === undefined ? {} : { shown }),
  })

/** Until somebody waits for a lock that another holds. */
const waitsForLock = () =>
  vi.waitFor(
    async () => {
      const { rows } = await testApp.database.pool.query(
        "select pid from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'",
      )
      expect(rows).not.toEqual([])
    },
    { timeout: 10_000 },
  )

describe('a log that leaves the limits', () => {
  it('opens one deviation naming span, peak and the specimens that were inside, in the review of each design', async () => {
    const { lab, bath, inside, outside, designs } = await soaking()
    const [t0, t1, t2, t3, t4] = [10, 70, 130, 190, 250].map(after) as [string, string, string, string, string]
    testApp.clock.advance({ hours: 6 })
    const { body } = await add(lab, bath.id, [
      value(t0, '25.2'),
      value(t1, '26.4'),
      value(t2, '27.4'),
      value(t3, '26.2'),
      value(t4, '25.8'),
    ]).expect(200)
    expect(body).toMatchObject({ stored: 5, known: 0 })
    const [deviation, ...others] = await deviations(lab)
    expect(others).toEqual([])
    expect(body.deviationIds).toEqual([deviation!.id])
    expect(deviation!.kind).toBe('condition')
    expect(deviation!.text).toMatch(
      /^BATH-1 was out of 25 ± 1 °C from Sat 7 Mar 07:10 to Sat 7 Mar 10:10, highest 27\.4 °C\.$/,
    )
    expect(deviation!.specimens.map(({ testId }) => testId).sort()).toEqual(inside.map(({ testId }) => testId).sort())
    expect(deviation!.specimens.some(({ testId }) => testId === outside.testId)).toBe(false)
    for (const design of designs) {
      const { points } = await testApp.services.review.read(lab.people.engineer.actor, design)
      const [point] = points.filter(({ kind }) => kind === 'deviation')
      expect(point).toMatchObject({ blocking: true })
      const own = design === designs[0] ? inside.slice(0, 2) : inside.slice(2)
      expect(point!.sentence).toContain(`Inside: ${own.map(({ label, code }) => `${label} (${code})`).join(', ')}.`)
    }
    await accept(lab, deviation!.id)
    // The same values again are known, and what was decided is not opened again.
    expect((await add(lab, bath.id, [value(after(-1), '25.0')]).expect(200)).body.deviationIds).toEqual([])
    expect(await deviations(lab)).toEqual([])
  })

  it('grows while it lasts as one deviation, and beyond a decision is another one', async () => {
    const { lab, bath } = await soaking()
    for (const typed of ['26.3', '26.8', '26.5']) {
      await add(lab, bath.id, [value(after(0), typed)]).expect(200)
      testApp.clock.advance({ minutes: 30 })
    }
    const [growing, ...others] = await deviations(lab)
    expect(others).toEqual([])
    expect(growing!.text).toContain('on, last seen so')
    expect(growing!.text).toContain('highest 26.8 °C')
    expect(growing!.specimens).toHaveLength(3)
    await accept(lab, growing!.id)
    await add(lab, bath.id, [value(after(0), '27.9')]).expect(200)
    const [beyond] = await deviations(lab)
    expect(beyond!.id).not.toBe(growing!.id)
    expect(beyond!.text).toContain('highest 27.9 °C')
    const decided = (await deviations(lab, false)).find(({ id }) => id === growing!.id)!
    expect(decided.text).toContain('highest 26.8 °C')
  })

  it('is decided as it was read: grown meanwhile it is shown again', async () => {
    const { lab, bath } = await soaking()
    await add(lab, bath.id, [value(after(0), '26.3')]).expect(200)
    const [read] = await deviations(lab)
    testApp.clock.advance({ minutes: 30 })
    await add(lab, bath.id, [value(after(0), '29.8')]).expect(200)
    await expect(accept(lab, read!.id, read!.text)).rejects.toMatchObject({
      code: 'changed-meanwhile',
      message: expect.stringContaining('highest 29.8 °C'),
    })
    const [grown] = await deviations(lab)
    expect((await accept(lab, grown!.id, grown!.text)).decision).toMatchObject({ kind: 'accept' })
  })

  it('does not grow under somebody who decides at the same moment', async () => {
    const { lab, bath } = await soaking()
    await add(lab, bath.id, [value(after(0), '26.3')]).expect(200)
    const [read] = await deviations(lab)
    testApp.clock.advance({ minutes: 30 })
    const [decided] = await Promise.all([
      accept(lab, read!.id, read!.text).catch((error: Error) => error),
      add(lab, bath.id, [value(after(0), '29.8')]).expect(200),
    ])
    const all = await deviations(lab, false)
    const hottest = all.filter(({ text }) => text.includes('highest 29.8 °C'))
    expect(hottest).toMatchObject([{ decision: null }])
    expect(all).toHaveLength(decided instanceof Error ? 1 : 2)
  })

  it('waits with growing until a decision that is being made stands', async () => {
    const { lab, bath } = await soaking()
    await add(lab, bath.id, [value(after(0), '26.3')]).expect(200)
    const [read] = await deviations(lab)
    testApp.clock.advance({ minutes: 30 })
    const { growing } = await testApp.services.laboratory.inLaboratorySql(lab.people.engineer.actor, async (raw) => {
      const sql = rowsSql(raw)
      await lockDeviation(sql, read!.id)
      const posted = add(lab, bath.id, [value(after(0), '29.8')]).then(({ status }) => status)
      await Promise.race([posted, waitsForLock()])
      await sql.rows(
        `insert into deviation_event (lab_id, id, deviation_id, kind, reason, by_id, at)
         values ($1::uuid, $2::uuid, $3::uuid, 'accept', 'Seen', $4::uuid, $5::timestamptz)`,
        [sql.actor.labId, newId(), read!.id, sql.actor.membershipId, sql.at],
      )
      sql.record({ action: 'deviation:decide', subjectKind: 'deviation', subjectId: read!.id, topics: [] })
      return { growing: posted }
    })
    expect(await growing).toBe(200)
    const all = await deviations(lab, false)
    expect(all.find(({ id }) => id === read!.id)!.text).toBe(read!.text)
    expect(all).toHaveLength(2)
  })

  it('is two deviations when it was inside in between, and none when nothing stood there', async () => {
    const { lab, bath } = await soaking()
    const times = [10, 40, 70, 100].map(after)
    testApp.clock.advance({ hours: 3 })
    const typed = ['26.4', '25.0', '23.5', '25.0']
    await add(
      lab,
      bath.id,
      times.map((at, index) => value(at, typed[index]!)),
    ).expect(200)
    await add(lab, bath.id, [value(after(0), '25.1')]).expect(200)
    expect((await deviations(lab)).map(({ text }) => text.replace(/.*, /, '')).sort()).toEqual([
      'highest 26.4 °C.',
      'lowest 23.5 °C.',
    ])
    const idle = await makeInstrument(testApp, lab, { code: 'BATH-2', kind: 'bath', name: 'Bath' })
    await add(lab, idle.id, [value(after(-10), '31.0')]).expect(200)
    expect(await deviations(lab)).toHaveLength(2)
    expect((await log(lab, idle.id)).values).toMatchObject([{ typed: '31.0', outside: null }])
  })

  it('is cut in two by a late value inside: the first takes the place of what stood, the second is another', async () => {
    const { lab, bath } = await soaking()
    const [t0, t1, t2, t3, t4] = [10, 40, 70, 100, 130].map(after) as [string, string, string, string, string]
    testApp.clock.advance({ hours: 3 })
    await add(lab, bath.id, [value(t0, '26.4'), value(t1, '26.9'), value(t3, '26.2'), value(t4, '25.0')]).expect(200)
    const [whole] = await deviations(lab)
    const { body } = await add(lab, bath.id, [value(t2, '25.3')]).expect(200)
    expect(body.deviationIds).toHaveLength(2)
    const open = await deviations(lab)
    expect(open.map(({ text }) => text.replace(/.*, /, '')).sort()).toEqual(['highest 26.2 °C.', 'highest 26.9 °C.'])
    expect(open.find(({ id }) => id === whole!.id)!.text).toContain('highest 26.9 °C')
    expect(open.every(({ specimens }) => specimens.length === 3)).toBe(true)
  })

  it('keeps its beginning when it lasts longer than a week', async () => {
    const { lab, bath } = await soaking()
    // Every two hours, which is no gap, for eight days.
    const times = Array.from({ length: 98 }, (_, index) => after(10 + index * 120))
    testApp.clock.advance({ hours: 24 * 9 })
    const typed = times.map((at) => value(at, '26.4'))
    await add(lab, bath.id, typed.slice(0, -1)).expect(200)
    const [first] = await deviations(lab)
    await add(lab, bath.id, typed.slice(-1)).expect(200)
    const [grown, ...others] = await deviations(lab)
    expect(others).toEqual([])
    const begins = / from (\w+ \d+ \w+ \d+:\d+) on, /
    expect(grown!.text).not.toBe(first!.text)
    expect(begins.exec(grown!.text)![1]).toBe(begins.exec(first!.text)![1])
  })

  it('is held against what is told later to have been put in before, also where it was decided for the others', async () => {
    const { lab, bath, load, outside } = await soaking()
    const [t0, t1, t2, t3] = [20, 70, 130, 190].map(after) as [string, string, string, string]
    testApp.clock.advance({ hours: 4 })
    await add(lab, bath.id, [value(t0, '25.2'), value(t1, '27.4'), value(t2, '26.9'), value(t3, '25.0')]).expect(200)
    const [decided] = await deviations(lab)
    await accept(lab, decided!.id, decided!.text)
    const body = {
      rows: [{ id: newId(), testId: outside.testId, stepKey: 'soak' }],
      time: { ...timeNow(testApp), eventAt: t0, eventFrom: 'paper' as const, note: 'Written on the rack’s sheet' },
      temperature: null,
    }
    const technician = lab.people.technician.actor
    const moved = await Promise.all([0, 1].map(() => testApp.services.loads.putIn(technician, load, body)))
    expect(moved.flatMap(({ outcome }) => outcome.rows.map((row) => row.outcome))).toEqual(['done', 'done'])
    const [further, ...others] = await deviations(lab)
    expect(others).toEqual([])
    expect(further!.text).toBe(decided!.text)
    expect(further!.specimens.map(({ testId }) => testId)).toEqual([outside.testId])
    await accept(lab, further!.id, further!.text)
    await add(lab, bath.id, [value(after(0), '25.0')]).expect(200)
    expect(await deviations(lab)).toEqual([])
  })

  it('shows gaps as gaps, values as typed, and what is asked for now', async () => {
    const { lab, bath } = await soaking()
    const times = [0, 60, 400].map(after)
    testApp.clock.advance({ hours: 7 })
    await add(
      lab,
      bath.id,
      times.map((at) => value(at, '25,20')),
    ).expect(200)
    const shown = await log(lab, bath.id)
    expect(shown.held).toEqual(['25 ± 1 °C'])
    expect(shown.values[0]).toMatchObject({ typed: '25,20', by: { name: 'Person technician' }, outside: false })
    expect(shown.gaps).toEqual([{ from: times[1], until: times[2] }])
    expect(shown.key).toBeNull()
  })

  it('keeps a value once when it arrives twice at once, and refuses another under its id', async () => {
    const { lab, bath } = await soaking()
    const sent = [value(after(0), '26.9')]
    const answers = await Promise.all([add(lab, bath.id, sent), add(lab, bath.id, sent)])
    expect(answers.map(({ body }) => body.stored).sort()).toEqual([0, 1])
    expect(await deviations(lab)).toHaveLength(1)
    await add(lab, bath.id, [{ ...sent[0]!, value: '25.0' }]).expect(409)
    await add(lab, bath.id, [value(after(30), '25.0')]).expect(400)
    await add(lab, bath.id, [value(after(0), 'warm')]).expect(400)
  })

  it('opens one deviation when two loggers post at once', async () => {
    const { lab, bath } = await soaking()
    const [one, other] = [value(after(0), '26.9'), value(after(1), '26.7')]
    await Promise.all([add(lab, bath.id, [one]).expect(200), add(lab, bath.id, [other]).expect(200)])
    const open = await deviations(lab)
    expect(open).toHaveLength(1)
    expect(open[0]!.text).toContain('highest 26.9 °C')
  })
})

describe('a key of an instrument', () => {
  const make = (lab: TestLaboratory, instrument: string, body: object = {}) =>
    lab
      .as('manager')
      .post(lab.path(`/instruments/${instrument}/keys`))
      .send({ id: newId(), ...body })
  const post = (key: string, values: object[]) =>
    request(testApp.url).post('/api/conditions').set('x-instrument-key', key).send({ values })

  it('is shown once, kept as its hash, posts values of this instrument only, and ends', async () => {
    const { lab, bath, inside } = await soaking()
    const id = newId()
    const { body: made } = await make(lab, bath.id, { id }).expect(201)
    expect(made.key.length).toBeGreaterThan(40)
    expect((await make(lab, bath.id, { id }).expect(200)).body.key).toBeNull()
    const { body } = await post(made.key, [value(after(0), '26.6')]).expect(200)
    expect(body).toMatchObject({ stored: 1 })
    const [deviation] = await deviations(lab)
    expect(deviation).toMatchObject({ openedByRule: true, by: null })
    expect(deviation!.specimens).toHaveLength(inside.length)
    const shown = await log(lab, bath.id)
    expect(shown.values).toMatchObject([{ typed: '26.6', by: null, outside: true }])
    expect(shown.key).toMatchObject({ by: { name: 'Person manager' } })
    const { body: page } = await lab
      .as('auditor')
      .get(lab.path(`/ledger/entries?subjectKind=instrument-key&subjectId=${id}`))
      .expect(200)
    expect(JSON.stringify(page)).not.toContain(made.key)

    const { body: second } = await make(lab, bath.id).expect(201)
    expect((await post(made.key, [value(after(0), '25.0')]).expect(404)).body.detail).toContain('opens no instrument')
    await post(second.key, [value(after(0), '25.0')]).expect(200)
    await make(lab, bath.id, { end: true }).expect(201)
    await post(second.key, [value(after(0), '25.0')]).expect(404)
    expect((await log(lab, bath.id)).key).toBeNull()
    await make(lab, bath.id, { end: true }).expect(409)
  })

  it('is made by a manager, and of two made at once one stands', async () => {
    const { lab, bath } = await soaking()
    await lab
      .as('technician')
      .post(lab.path(`/instruments/${bath.id}/keys`))
      .send({ id: newId() })
      .expect(403)
    const made = await Promise.all([make(lab, bath.id).expect(201), make(lab, bath.id).expect(201)])
    const answers = await Promise.all(made.map(({ body }) => post(body.key, [value(after(0), '25.0')])))
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 404])
    await post('no key at all', [value(after(0), '25.0')]).expect(404)
  })

  it('that is ended while a value is on its way keeps that value no more', async () => {
    const { lab, bath } = await soaking()
    const { body: made } = await make(lab, bath.id).expect(201)
    const held = { sql: 'select pg_advisory_xact_lock(hashtextextended($1, 0))', values: [`conditions ${bath.id}`] }
    const [ended, posted] = await atOnce(
      testApp.ownerUrl,
      held,
      async () => make(lab, bath.id, { end: true }),
      async () => post(made.key, [value(after(0), '25.0')]),
    )
    expect([ended, posted]).toMatchObject([{ value: { status: 201 } }, { value: { status: 404 } }])
    expect((await log(lab, bath.id)).values).toEqual([])
  })
})
