import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { TestView } from '@curebook/contract/bench'
import { rowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { confirm, runDisc, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { soakDiscs } from '../../../../../tests/support/factories/soaking.ts'
import { createMaintenanceService } from './maintenance.service.ts'
import { loadTests } from './test-record.repository.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-06T08:00:00Z' })
})
afterAll(() => testApp.close())

const after = (minutes: number) => new Date(testApp.clock.now().getTime() + minutes * 60_000).toISOString()
const conditions = async (lab: TestLaboratory) =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open: false, designId: null })).items.filter(
    ({ kind }) => kind === 'condition',
  )
const view = (lab: TestLaboratory, testId: string) =>
  testApp.services.bench.view.one(lab.people.technician.actor, testId)
const loadTestOf = async (lab: TestLaboratory, testId: string) => {
  const [record] = await testApp.services.laboratory.inLaboratorySql(lab.people.technician.actor, (raw) =>
    loadTests(rowsSql(raw), [testId]),
  )
  return record!
}
const put = (lab: TestLaboratory, testId: string, act: string, eventAt: string, more: object = {}) =>
  lab
    .as('technician2')
    .post(lab.path(`/tests/${testId}/acts/${act}/corrections`))
    .send({
      id: newId(),
      reason: 'Read off the wrong clock',
      time: { ...timeNow(testApp), eventAt, eventFrom: 'at', note: 'By the sheet' },
      ...more,
    })

/** All taken out for their runs after an hour; too warm from the 70th to the 130th minute, with nobody inside by then. */
async function takenOut() {
  const soak = await soakDiscs(testApp)
  const machine = await makeInstrument(testApp, soak.lab)
  await makeFactor(testApp, soak.lab, machine.id)
  const ids = soak.inside.map(({ testId }) => testId)
  const [before, warm, late, end] = [10, 70, 100, 130].map(after) as [string, string, string, string]
  testApp.clock.advance({ hours: 1 })
  await confirm(testApp, soak.lab, ids, 'abrade', 'start', machine.id)
  testApp.clock.advance({ hours: 2 })
  await testApp.services.conditions.add(soak.lab.people.technician.actor, soak.bath.id, {
    values: [
      [before, '25.0'],
      [warm, '27.4'],
      [end, '25.0'],
    ].map(([at, value]) => ({ id: newId(), at: at!, value: value!, unit: '°C' as const })),
  })
  expect(await conditions(soak.lab)).toEqual([])
  const testId = ids[0]!
  const run = (await view(soak.lab, testId)).events.find(({ stepKey }) => stepKey === 'abrade')!
  return { ...soak, machine, testId, run, late, before }
}

/** A disc whose run began some minutes after its one-hour soak had to end, and its one deviation. */
async function runLate(minutes: number) {
  const lab = await makeLaboratory(testApp)
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const { testId } = specimens[0]!
  await runDisc(testApp, lab, testId, machine.id, { w1: '761.2', w2: '746.3', soakMinutes: 75 + minutes })
  const run = async () => (await view(lab, testId)).events.find(({ stepKey }) => stepKey === 'abrade')!
  const { eventAt } = await run()
  const lateBy = async (late: number) => {
    const at = new Date(Date.parse(eventAt) + (late - minutes) * 60_000).toISOString()
    await put(lab, testId, (await run()).id, at).expect(200)
  }
  const missed = async () =>
    (await testApp.services.deviations.list(lab.people.engineer.actor, { open: false, designId: null })).items
      .filter(({ kind }) => kind === 'window')
      .map(({ id, text, decision }) => ({ id, text, decided: decision?.kind ?? null, reason: decision?.reason }))
  const accept = async () => {
    const open = (await missed()).find(({ decided }) => decided === null)!
    await testApp.services.deviations.decide(lab.people.manager.actor, open.id, {
      id: newId(),
      kind: 'accept',
      reason: 'A longer soak can only raise the loss',
      spareTestId: null,
    })
  }
  return { lab, testId, lateBy, missed, accept }
}

describe('the time of an act that missed its window', () => {
  it('put right to far later is another miss than the one that was accepted', async () => {
    const { lateBy, missed, accept, lab } = await runLate(5)
    await accept()
    await lateBy(14)
    const found = await missed()
    expect(found).toHaveLength(2)
    const other = found.find(({ decided }) => decided === null)!
    expect(other.text).toContain('14 min too late')
    expect(found.find(({ decided }) => decided === 'accept')!.text).toContain('5 min too late')
    // What was accepted covers as much and less; never more, whatever stood in between.
    await accept()
    await lateBy(4)
    await lateBy(14)
    expect(await missed()).toHaveLength(2)
    await lateBy(14.5)
    expect((await missed()).filter(({ decided }) => decided === null)).toHaveLength(1)
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('is told with its new minutes while nobody has decided', async () => {
    const { lateBy, missed, accept } = await runLate(5)
    await lateBy(14)
    const found = await missed()
    expect(found.filter(({ decided }) => decided === null).map(({ text }) => text)).toEqual([
      expect.stringContaining('14 min too late'),
    ])
    expect(found.find(({ decided }) => decided === 'close')).toMatchObject({
      text: expect.stringContaining('5 min too late') as string,
      reason: expect.stringContaining('Another stands in its place.') as string,
    })
    // What a rule closed covers nothing.
    await lateBy(5)
    await accept()
    expect((await missed()).filter(({ decided }) => decided === 'accept').map(({ text }) => text)).toEqual([
      expect.stringContaining('5 min too late'),
    ])
  })

  it('moved while it is decided is decided as it stood, or not at all', async () => {
    const { lateBy, missed, accept } = await runLate(5)
    await Promise.allSettled([accept(), lateBy(14)])
    const found = await missed()
    expect(found).toHaveLength(2)
    expect(found.filter(({ decided }) => decided === null).map(({ text }) => text)).toEqual([
      expect.stringContaining('14 min too late'),
    ])
  })
})

describe('the time of an act', () => {
  it('put right to later makes the stay longer than was believed: its log is judged anew', async () => {
    const { lab, testId, run, late, machine } = await takenOut()
    const { body } = await put(lab, testId, run.id, late).expect(200)
    const moved = (body as TestView).events.find(({ stepKey }) => stepKey === 'abrade')!
    expect(moved).toMatchObject({
      eventAt: late,
      by: { name: 'Person technician2' },
      corrects: { at: run.eventAt, name: 'Person technician', reason: 'Read off the wrong clock' },
    })
    const [deviation, ...others] = await conditions(lab)
    expect(others).toEqual([])
    expect(deviation!.specimens.map((specimen) => specimen.testId)).toEqual([testId])
    expect(deviation!.text).toContain('highest 27.4 °C')
    // Put right back, nothing rests on it any more.
    await put(lab, testId, moved.id, run.eventAt).expect(200)
    expect((await conditions(lab)).map(({ decision }) => decision?.kind)).toEqual(['close'])
    // The machine of the run goes with it: its result still has a factor.
    expect((await loadTestOf(lab, testId)).machine).toMatchObject({ id: machine.id })
    const maintenance = createMaintenanceService({
      laboratory: testApp.services.laboratory,
      methods: testApp.services.methods,
    })
    expect(await maintenance.checkProjections(lab.labId)).toEqual([])
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('is put right once of two at once, and the same message twice is one', async () => {
    const { lab, testId, run, late } = await takenOut()
    const answers = await Promise.all([put(lab, testId, run.id, late), put(lab, testId, run.id, after(-5))])
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409])
    const id = newId()
    const standing = (await view(lab, testId)).events.find(({ stepKey }) => stepKey === 'abrade')!
    const same = { id, time: { ...timeNow(testApp), eventAt: late, eventFrom: 'at', note: 'By the sheet' } }
    for (const status of [200, 200]) await put(lab, testId, standing.id, late, same).expect(status)
    await put(lab, testId, standing.id, late, { ...same, reason: 'Another' }).expect(409)
  })

  it('never lies before what must be done before its step is done', async () => {
    const { lab, testId, run, inside } = await takenOut()
    const weighed = (await view(lab, testId)).readings.find(({ stepKey }) => stepKey === 'weigh-before')!
    const soon = new Date(Date.parse(weighed.eventAt) - 60_000).toISOString()
    const { body } = await put(lab, testId, run.id, soon).expect(400)
    expect(body.errors).toEqual([
      { path: 'time.eventAt', message: expect.stringContaining('would have begun before') as string },
    ])
    const other = inside[1]!.testId
    const soak = (await view(lab, other)).events.find(({ stepKey }) => stepKey === 'soak')!
    await put(lab, other, soak.id, soon).expect(400)
    await put(lab, testId, run.id, new Date(Date.parse(weighed.eventAt) + 60_000).toISOString()).expect(200)
  })

  it('never lies before the start of its step, nor in the future, and asks for a reason', async () => {
    const { lab, testId, run, late, before, inside } = await takenOut()
    const cure = (await view(lab, testId)).events.filter(({ stepKey }) => stepKey === 'cure')
    const end = cure.find(({ kind }) => kind === 'end')!
    const start = cure.find(({ kind }) => kind === 'start')!
    await put(lab, testId, end.id, new Date(Date.parse(start.eventAt) - 60_000).toISOString()).expect(400)
    await put(lab, testId, start.id, late).expect(400)
    await put(lab, testId, run.id, after(60)).expect(400)
    await put(lab, testId, run.id, before, { reason: '' }).expect(400)
    await put(lab, inside[1]!.testId, run.id, before).expect(404)
  })
})
