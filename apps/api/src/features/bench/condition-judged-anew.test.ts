import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { ConditionLog } from '@curebook/contract/conditions'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { countStatements } from '../../../../../tests/support/count-statements.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import type { TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { soakDiscs } from '../../../../../tests/support/factories/soaking.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-06T08:00:00Z' })
})
afterAll(() => testApp.close())

const after = (minutes: number) => new Date(testApp.clock.now().getTime() + minutes * 60_000).toISOString()
const value = (at: string, typed: string) => ({ id: newId(), at, value: typed })
const add = (lab: TestLaboratory, instrument: string, values: object[]) =>
  lab
    .as('technician')
    .post(lab.path(`/instruments/${instrument}/conditions`))
    .send({ values })
const correct = (lab: TestLaboratory, instrument: string, id: string, typed: string, more: object = {}) =>
  lab
    .as('technician2')
    .post(lab.path(`/instruments/${instrument}/conditions/${id}/corrections`))
    .send({ id: newId(), value: typed, reason: 'Digits transposed', ...more })
const log = async (lab: TestLaboratory, instrument: string) =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/instruments/${instrument}/conditions`))
      .expect(200)
  ).body as ConditionLog
const all = async (lab: TestLaboratory) =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open: false, designId: null })).items.filter(
    ({ kind }) => kind === 'condition',
  )
const open = async (lab: TestLaboratory) => (await all(lab)).filter(({ decision }) => decision === null)
const accept = (lab: TestLaboratory, id: string) =>
  testApp.services.deviations.decide(lab.people.engineer.actor, id, {
    id: newId(),
    kind: 'accept',
    reason: 'Two degrees for a night do not change the soak',
    spareTestId: null,
  })
const isWhole = async (lab: TestLaboratory) =>
  (await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole

describe('a late value inside a time that was decided', () => {
  /** Out from the 10th to the 130th minute with its peak early, decided; a value inside at the 70th is still to come. */
  async function decided() {
    const soak = await soakDiscs(testApp)
    const [t0, t1, t2, t3, t4] = [10, 40, 70, 100, 130].map(after) as [string, string, string, string, string]
    testApp.clock.advance({ hours: 3 })
    const values = [value(t0, '26.4'), value(t1, '26.9'), value(t3, '26.2'), value(t4, '25.0')]
    await add(soak.lab, soak.bath.id, values).expect(200)
    const [deviation] = await open(soak.lab)
    await accept(soak.lab, deviation!.id)
    return { ...soak, deviation: deviation!, t2 }
  }

  it('opens nothing more: what it finds is noted on the decision, once', async () => {
    const { lab, bath, deviation, t2, designs } = await decided()
    const late = [value(t2, '25.3')]
    await Promise.all([add(lab, bath.id, late).expect(200), add(lab, bath.id, late).expect(200)])
    const [noted, ...others] = await all(lab)
    expect(others).toEqual([])
    expect(noted).toMatchObject({ id: deviation.id, text: deviation.text, decision: { kind: 'accept' } })
    expect(noted!.notes).toHaveLength(1)
    expect(noted!.notes[0]!.text).toMatch(
      /^By the log as it stands now it was out of limits in this time from .* to .*, highest 26\.9 °C, and from .* to .*, highest 26\.2 °C\. The decision stands\.$/,
    )
    await add(lab, bath.id, [value(after(0), '25.1')]).expect(200)
    expect((await all(lab)).map(({ notes }) => notes.length)).toEqual([1])
    const { points } = await testApp.services.review.read(lab.people.engineer.actor, designs[0])
    expect(points.find(({ kind }) => kind === 'deviation')!.sentence).toContain('Noted since: By the log')
    expect(await isWhole(lab)).toBe(true)
  })

  it('is held against what was noted on every decision with one look', async () => {
    const { lab, bath } = await soakDiscs(testApp)
    const spans = [10, 50, 90].map((from) => [from, from + 10, from + 20, from + 30].map(after))
    testApp.clock.advance({ hours: 3 })
    for (const [t0, , t2, t3] of spans as [string, string, string, string][])
      await add(lab, bath.id, [value(t0, '26.4'), value(t2, '26.9'), value(t3, '25.0')]).expect(200)
    for (const { id } of await open(lab)) await accept(lab, id)
    for (const [, t1] of spans as [string, string][]) await add(lab, bath.id, [value(t1, '25.1')]).expect(200)
    expect((await all(lab)).map(({ notes }) => notes.length)).toEqual([1, 1, 1])
    const again = () => add(lab, bath.id, [value(after(0), '25.0')]).expect(200)
    expect(await countStatements(again, /from deviation_event e[^]*e\.kind = 'notify' order by/)).toBe(1)
    expect((await all(lab)).map(({ notes }) => notes.length)).toEqual([1, 1, 1])
  })

  it('opens another where it lies farther outside than what was decided', async () => {
    const { lab, bath, deviation, t2 } = await decided()
    await add(lab, bath.id, [value(t2, '27.8')]).expect(200)
    const [another, ...others] = await open(lab)
    expect(others).toEqual([])
    expect(another!.text).toContain('highest 27.8 °C')
    expect(another!.id).not.toBe(deviation.id)
  })

  it('opens another where it lies outside on the other side', async () => {
    const { lab, bath, t2 } = await decided()
    await add(lab, bath.id, [value(t2, '22.0')]).expect(200)
    expect((await open(lab)).map(({ text }) => text.replace(/.*, /, ''))).toEqual(['lowest 22.0 °C.'])
  })
})

describe('a mistyped value of a log', () => {
  it('is put right by another with who, when and why; what rested on it alone is closed with what was corrected', async () => {
    const { lab, bath } = await soakDiscs(testApp)
    const wrong = value(after(0), '52.1')
    await add(lab, bath.id, [wrong]).expect(200)
    const [deviation] = await open(lab)
    const id = newId()
    const { body } = await correct(lab, bath.id, wrong.id, '25.1', { id }).expect(200)
    expect(body).toEqual({ stored: 1, known: 0, deviationIds: [] })
    expect((await correct(lab, bath.id, wrong.id, '25.1', { id }).expect(200)).body).toMatchObject({ known: 1 })
    const shown = await log(lab, bath.id)
    expect(shown.values).toMatchObject([
      {
        typed: '25.1',
        at: wrong.at,
        by: { name: 'Person technician2' },
        outside: false,
        corrects: { typed: '52.1', name: 'Person technician', reason: 'Digits transposed' },
      },
    ])
    const [closed, ...others] = await all(lab)
    expect(others).toEqual([])
    expect(closed).toMatchObject({ id: deviation!.id, text: deviation!.text, decision: { kind: 'close' } })
    expect(closed!.decision!.reason).toMatch(
      /^By the log as it stands now nothing was out of limits then\. Corrected by Person technician2: 52\.1 °C of .* to 25\.1 °C\.$/,
    )
    await expect(accept(lab, deviation!.id)).rejects.toMatchObject({ code: 'conflict' })
    expect(await isWhole(lab)).toBe(true)
    // Put right the other way it is out of limits again, and that is another deviation.
    await correct(lab, bath.id, id, '26.8').expect(200)
    expect((await open(lab)).map((one) => one.id === deviation!.id)).toEqual([false])
  })

  it('undoes no decision: that it rests on nothing now is noted on it', async () => {
    const { lab, bath } = await soakDiscs(testApp)
    const wrong = value(after(0), '52.1')
    await add(lab, bath.id, [wrong]).expect(200)
    const [deviation] = await open(lab)
    await accept(lab, deviation!.id)
    await correct(lab, bath.id, wrong.id, '25.1').expect(200)
    const [decided] = await all(lab)
    expect(decided).toMatchObject({ id: deviation!.id, decision: { kind: 'accept' } })
    expect(decided!.notes.map(({ text }) => text).join()).toMatch(
      /^By the log as it stands now nothing was out of limits in this time\. The decision stands\. Corrected by Person technician2: 52\.1 °C/,
    )
  })

  it('is corrected once of two at once, and by nobody where a logger sent it', async () => {
    const { lab, bath } = await soakDiscs(testApp)
    const wrong = value(after(0), '52.1')
    await add(lab, bath.id, [wrong]).expect(200)
    const answers = await Promise.all([
      correct(lab, bath.id, wrong.id, '25.1'),
      correct(lab, bath.id, wrong.id, '25.2'),
    ])
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409])
    expect((await log(lab, bath.id)).values).toHaveLength(1)
    const { value: made } = await testApp.services.conditions.makeKey(lab.people.manager.actor, bath.id, {
      id: newId(),
      end: false,
    })
    const sent = { ...value(after(0), '26.9'), unit: '°C' as const }
    await testApp.services.conditions.post(made.key!, { values: [sent] })
    await correct(lab, bath.id, sent.id, '25.1').expect(422)
    const other = await makeInstrument(testApp, lab, { code: 'BATH-2', kind: 'bath', name: 'Bath' })
    await correct(lab, other.id, wrong.id, '25.1').expect(404)
    await correct(lab, bath.id, wrong.id, 'warm').expect(400)
    await correct(lab, bath.id, wrong.id, '25.1', { reason: ' ' }).expect(400)
  })
})

describe('a stay whose end is told late', () => {
  const takeOut = async (lab: TestLaboratory, testIds: readonly string[], eventAt: string) => {
    const machine = await makeInstrument(testApp, lab, { code: `WTA-${newId().slice(-4)}` })
    const { rows } = await testApp.services.bench.stepEvents.confirm(lab.people.technician.actor, {
      stepKey: 'abrade',
      kind: 'start',
      rows: testIds.map((testId) => ({ id: newId(), testId })),
      instrumentId: machine.id,
      time: { ...timeNow(testApp), eventAt, eventFrom: 'paper', note: 'Written on the sheet' },
    })
    expect(rows.every(({ outcome }) => outcome === 'done')).toBe(true)
  }
  /** Inside until the 60th minute, too warm from the 70th on. */
  async function warmLater() {
    const soak = await soakDiscs(testApp)
    const [before, out, warm, end] = [10, 60, 70, 130].map(after) as [string, string, string, string]
    testApp.clock.advance({ hours: 3 })
    await add(soak.lab, soak.bath.id, [value(before, '25.0'), value(warm, '27.4'), value(end, '25.0')]).expect(200)
    const [deviation] = await open(soak.lab)
    return { ...soak, ids: soak.inside.map(({ testId }) => testId), deviation: deviation!, out }
  }

  it('is concerned by no value after it', async () => {
    const { lab, ids, deviation, out } = await warmLater()
    await takeOut(lab, ids, out)
    const [closed, ...others] = await all(lab)
    expect(others).toEqual([])
    expect(closed).toMatchObject({
      id: deviation.id,
      decision: { kind: 'close', reason: 'Told since: what it names did not stand inside then.' },
    })
    expect(await isWhole(lab)).toBe(true)
  })

  it('leaves a deviation of those that stood there on', async () => {
    const { lab, ids, deviation, out } = await warmLater()
    await takeOut(lab, ids.slice(0, 1), out)
    expect((await all(lab)).find(({ id }) => id === deviation.id)!.decision!.reason).toBe(
      'Told since: not all that it names stood inside then. For those that did, another stands in its place.',
    )
    const [rest, ...others] = await open(lab)
    expect(others).toEqual([])
    expect(rest!.text).toBe(deviation.text)
    expect(rest!.specimens.map(({ testId }) => testId).sort()).toEqual(ids.slice(1).toSorted())
  })

  it('leaves a decision as it was, with a note', async () => {
    const { lab, ids, deviation, out } = await warmLater()
    await accept(lab, deviation.id)
    await takeOut(lab, ids.slice(0, 2), out)
    const [decided, ...others] = await all(lab)
    expect(others).toEqual([])
    expect(decided!.notes.map(({ text }) => text)).toEqual([
      'Told since: 2 of the specimens it names did not stand inside then. The decision stands.',
    ])
  })

  it('counts what was read until it, and what a load that lasts on finds later', async () => {
    const soak = await soakDiscs(testApp)
    const [warm, out, warmer] = [30, 60, 70].map(after) as [string, string, string]
    testApp.clock.advance({ hours: 3 })
    await add(soak.lab, soak.bath.id, [value(warm, '26.4'), value(warmer, '28.9')]).expect(200)
    expect((await open(soak.lab)).map(({ text }) => text.replace(/.*, /, ''))).toEqual(['highest 28.9 °C.'])
    await takeOut(
      soak.lab,
      soak.inside.map(({ testId }) => testId),
      out,
    )
    const [until, ...others] = await open(soak.lab)
    expect(others).toEqual([])
    expect(until!.text).toContain('highest 26.4 °C')
    expect(until!.text).not.toContain('last seen so')
  })
})
