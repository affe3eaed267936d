import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { Deviation } from '@curebook/contract/deviations'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, confirm, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import { createMaintenanceService } from './maintenance.service.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const day = (days: number) => new Date(testApp.clock.now().getTime() + days * 86_400_000).toISOString().slice(0, 10)

const calibrate = (lab: TestLaboratory, id: string, validUntil: string, doneOn = '2026-01-05', passed = true) =>
  testApp.services.instruments.addCalibration(lab.people.manager.actor, id, {
    id: newId(),
    doneOn,
    validUntil,
    certificate: 'C-1',
    passed,
  })
const view = (lab: TestLaboratory, testId: string) =>
  testApp.services.bench.view.one(lab.people.technician.actor, testId)
const readingOf = async (lab: TestLaboratory, testId: string, step: string) =>
  (await view(lab, testId)).readings.find(({ stepKey, superseded }) => stepKey === step && !superseded)!
const weighAgain = (lab: TestLaboratory, readingId: string, typed: string, who: PersonKey = 'technician') =>
  testApp.services.bench.readings.correct(lab.people[who].actor, readingId, {
    id: newId(),
    typed,
    reason: 'weighed again',
    time: timeNow(testApp),
  })
const open = async (lab: TestLaboratory) =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open: true, designId: null })).items
const decide = (lab: TestLaboratory, deviation: Deviation, who: PersonKey, more: object = {}) =>
  testApp.services.deviations.decide(lab.people[who].actor, deviation.id, {
    id: newId(),
    kind: 'release',
    reason: 'Calibrated late, no shift as found',
    readingIds: deviation.waiting?.readingIds ?? [],
    spareTestId: null,
    ...more,
  })
const check = (lab: TestLaboratory) =>
  createMaintenanceService({
    laboratory: testApp.services.laboratory,
    methods: testApp.services.methods,
  }).checkProjections(lab.labId)
const replay = (lab: TestLaboratory) =>
  createMaintenanceService({
    laboratory: testApp.services.laboratory,
    methods: testApp.services.methods,
  }).replayResults(lab.labId)
const lossOf = async (lab: TestLaboratory, testId: string) =>
  (await view(lab, testId)).results.find(({ key }) => key === 'loss')

/** A fresh disc that waits for its first weighing. */
async function fresh(validUntil: string | null) {
  const lab = await makeLaboratory(testApp)
  const balance = await makeInstrument(testApp, lab, { code: 'BAL-1', kind: 'balance', name: 'Balance' })
  if (validUntil) await calibrate(lab, balance.id, validUntil)
  const { specimens, design } = await makePlannedDesign(testApp, lab)
  const testId = specimens[0]!.testId
  for (const [step, kind] of [
    ['cast', 'start'],
    ['cure', 'start'],
  ] as const)
    await confirm(testApp, lab, [testId], step, kind)
  const weigh = (step: string, typed: string, who: PersonKey = 'technician') =>
    testApp.services.bench.readings.post(
      lab.people[who].actor,
      testId,
      aReading(testApp, step, 'mass', typed, { instrumentId: balance.id }),
    )
  return { lab, balance, testId, design, weigh }
}

describe('a reading outside a calibration', () => {
  it('is kept, does not count, opens one deviation, and its result appears when it is released', async () => {
    const { lab, testId, weigh } = await fresh(day(-1))
    const { value: first } = await weigh('weigh-before', '759.5')
    expect(first.reading).toMatchObject({ typed: '759.5', waits: true })
    expect(first.waits[0]!.text).toContain('The calibration of BAL-1 ended on')
    expect(first.waits[0]!.sentence).toBe(
      'Kept, does not count until released; a manager or engineer can release it: Person engineer, Person engineer2, Person manager.',
    )
    await weigh('weigh-after', '740.7')
    const [deviation, ...others] = await open(lab)
    expect(others).toEqual([])
    expect(deviation).toMatchObject({ kind: 'calibration', waiting: { typed: ['759.5', '740.7'], mayRelease: true } })
    expect((await lossOf(lab, testId))?.refusal).toMatchObject({ code: 'waits-for-release' })
    expect(await check(lab)).toEqual([])
    expect((await replay(lab)).differences).toEqual([])

    await expect(decide(lab, deviation!, 'manager', { kind: 'accept' })).rejects.toMatchObject({
      code: 'invalid-input',
    })
    const decided = await decide(lab, deviation!, 'manager')
    expect(decided).toMatchObject({ decision: { kind: 'release' }, waiting: null })
    expect(await lossOf(lab, testId)).toMatchObject({ value: '18.8', refusal: null })
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
    expect(await check(lab)).toEqual([])
    expect((await replay(lab)).differences).toEqual([])
  })

  it('counts where the laboratory has recorded no calibration of the instrument', async () => {
    const { lab, weigh } = await fresh(null)
    const { value } = await weigh('weigh-before', '759.5')
    expect(value.reading.waits).toBe(false)
    expect(await open(lab)).toEqual([])
  })

  it('weighed again takes a number back until it is released; another correction by a good balance counts', async () => {
    const { lab, testId, balance, weigh } = await fresh(day(30))
    await weigh('weigh-before', '759.5')
    await weigh('weigh-after', '740.7')
    expect((await lossOf(lab, testId))?.value).toBe('18.8')
    await calibrate(lab, balance.id, day(30), day(0), false)
    const { value } = await weighAgain(lab, (await readingOf(lab, testId, 'weigh-after')).id, '741.0')
    expect(value.reading.waits).toBe(true)
    expect(value.results.find(({ key }) => key === 'loss')).toMatchObject({
      value: null,
      refusal: { code: 'waits-for-release' },
    })
    expect(await check(lab)).toEqual([])
    expect((await replay(lab)).differences).toEqual([])
    await calibrate(lab, balance.id, day(30), day(0), true)
    const { value: good } = await weighAgain(lab, value.reading.id, '740.9')
    expect(good.reading.waits).toBe(false)
    expect(good.results.find(({ key }) => key === 'loss')?.value).toBe('18.6')
    const [deviation] = await open(lab)
    expect(deviation!.waiting).toBeNull()
    await decide(lab, deviation!, 'engineer', { kind: 'accept', reason: 'Weighed again with a good balance' })
    expect(await check(lab)).toEqual([])
  })

  it('put right as a slip waits for what the first waits for', async () => {
    const { lab, weigh, balance, testId } = await fresh(day(-1))
    const { value: first } = await weigh('weigh-before', '795.5')
    await calibrate(lab, balance.id, day(60), day(0))
    const { value } = await testApp.services.bench.readings.correct(lab.people.technician.actor, first.reading.id, {
      id: newId(),
      typed: '759.5',
      reason: 'digits transposed',
      time: timeNow(testApp),
    })
    expect(value.reading.waits).toBe(true)
    expect((await open(lab)).map(({ waiting }) => waiting?.typed)).toEqual([['759.5']])
    expect((await view(lab, testId)).deviations).toHaveLength(1)
  })

  it('is released once, exactly as shown: of two at once one stands, and a reading that came between is shown first', async () => {
    const { lab, weigh, testId } = await fresh(day(-1))
    await weigh('weigh-before', '759.5')
    const [shown] = await open(lab)
    await weigh('weigh-after', '740.7')
    await expect(decide(lab, shown!, 'engineer')).rejects.toMatchObject({ code: 'changed-meanwhile' })
    const [now] = await open(lab)
    const outcomes = await Promise.allSettled([decide(lab, now!, 'engineer'), decide(lab, now!, 'manager')])
    expect(outcomes.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected'])
    expect((await lossOf(lab, testId))?.value).toBe('18.8')
    expect(await check(lab)).toEqual([])
  })

  it('posted while the deviation is released either counts with it or waits under the next', async () => {
    const { lab, weigh } = await fresh(day(-1))
    await weigh('weigh-before', '759.5')
    const [shown] = await open(lab)
    const [released, posted] = await Promise.allSettled([
      decide(lab, shown!, 'engineer'),
      weigh('weigh-after', '740.7'),
    ])
    expect(posted.status).toBe('fulfilled')
    const after = await open(lab)
    // Released before the reading came: it waits under a deviation of its own. After: nothing was released unseen.
    expect(after.map(({ waiting }) => waiting?.typed)).toEqual(
      released.status === 'fulfilled' ? [['740.7']] : [['759.5', '740.7']],
    )
    expect(await check(lab)).toEqual([])
  })
})

describe('a reading by somebody not authorised', () => {
  const grant = (lab: TestLaboratory, who: PersonKey, activity: string, untilDay: string | null = null) =>
    testApp.services.authorisations.grant(lab.people.manager.actor, {
      id: newId(),
      membershipId: lab.people[who].actor.membershipId,
      activity,
      fromDay: '2026-01-01',
      untilDay,
      evidence: 'Observed',
    })

  it('waits for release from the first authorisation of the method on', async () => {
    const { lab, testId, weigh } = await fresh(null)
    await grant(lab, 'technician2', 'method:wet-track-abrasion-1h')
    const { value: own } = await weigh('weigh-before', '759.5', 'technician2')
    expect(own.reading.waits).toBe(false)
    const { value } = await weigh('weigh-after', '740.7')
    expect(value.waits[0]!.text).toContain('Person technician was not authorised for')
    const seen = (who: PersonKey) => testApp.services.bench.view.one(lab.people[who].actor, testId)
    expect((await seen('technician2')).notAuthorised).toBeNull()
    expect((await seen('technician')).notAuthorised).toContain('Person technician was not authorised for')
    expect((await open(lab)).map(({ kind }) => kind)).toEqual(['competence'])
  })

  it('is released by somebody authorised for release, and not by who made it', async () => {
    const { lab, weigh } = await fresh(null)
    await grant(lab, 'technician2', 'method:wet-track-abrasion-1h')
    await weigh('weigh-before', '759.5', 'engineer')
    const [deviation] = await open(lab)
    expect(deviation!.waiting!.mayRelease).toBe(false)
    await expect(decide(lab, deviation!, 'engineer')).rejects.toMatchObject({ code: 'refused-by-rule' })
    await grant(lab, 'engineer2', 'release')
    await expect(decide(lab, deviation!, 'manager')).rejects.toThrow(
      'a manager or engineer can release it: Person engineer2.',
    )
    await decide(lab, deviation!, 'engineer2')
    expect(await open(lab)).toEqual([])
  })
})
