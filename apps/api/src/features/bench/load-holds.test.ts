import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { Deviation } from '@curebook/contract/deviations'
import type { Load, Ovens } from '@curebook/contract/loads'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { confirm, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 60_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const day = (days: number) => new Date(testApp.clock.now().getTime() + days * 86_400_000).toISOString().slice(0, 10)
const calibrate = (lab: TestLaboratory, id: string, validUntil: string, doneOn = '2026-01-05') =>
  testApp.services.instruments.addCalibration(lab.people.manager.actor, id, {
    id: newId(),
    doneOn,
    validUntil,
    certificate: 'C-1',
    passed: true,
  })
const rowsOf = (specimens: readonly { testId: string }[]) =>
  specimens.map(({ testId }) => ({ id: newId(), testId, stepKey: 'cure' }))

/** Discs of two designs in one oven, a balance whose calibration has lapsed and one that holds. */
async function loaded({ later = 0 }: { later?: number } = {}) {
  const lab = await makeLaboratory(testApp)
  const oven = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
  const lapsed = await makeInstrument(testApp, lab, { code: 'BAL-1', kind: 'balance', name: 'Balance' })
  const good = await makeInstrument(testApp, lab, { code: 'BAL-2', kind: 'balance', name: 'Balance' })
  await calibrate(lab, lapsed.id, day(-1))
  await calibrate(lab, good.id, day(60))
  const first = await makePlannedDesign(testApp, lab, aSeries({ contents: ['10', '14'] }), { name: 'First' })
  const second = await makePlannedDesign(testApp, lab, aSeries(), { name: 'Second' })
  const specimens = [...first.specimens, ...second.specimens]
  await confirm(
    testApp,
    lab,
    specimens.map(({ testId }) => testId),
    'cast',
    'start',
  )
  testApp.clock.advance({ hours: 1 })
  const { value } = await testApp.services.loads.open(lab.people.technician.actor, {
    id: newId(),
    instrumentId: oven.id,
    time: timeNow(testApp),
  })
  const load = value.id
  await testApp.services.loads.putIn(lab.people.technician.actor, load, {
    rows: rowsOf(specimens.slice(0, specimens.length - later)),
    time: timeNow(testApp),
    temperature: null,
  })
  testApp.clock.advance({ hours: 18 })
  const weigh = async (testId: string, typed: string, instrumentId: string | null, who: PersonKey = 'technician') =>
    (
      await testApp.services.loads.keep(lab.people[who].actor, load, {
        id: newId(),
        key: 'warm-mass',
        testId,
        typed,
        instrumentId,
        time: timeNow(testApp),
        supersedes: null,
      })
    ).value
  const takeOut = () =>
    testApp.services.loads.takeOut(lab.people.technician.actor, load, {
      rows: rowsOf(specimens),
      time: timeNow(testApp),
      temperature: null,
      word: '',
    })
  return { lab, oven, lapsed, good, load, specimens, designs: [first.design.id, second.design.id], weigh, takeOut }
}

const open = async (lab: TestLaboratory) =>
  (await testApp.services.deviations.list(lab.people.engineer.actor, { open: true, designId: null })).items
const decide = (lab: TestLaboratory, deviation: Deviation, who: PersonKey, kind: 'release' | 'exclude' | 'accept') =>
  testApp.services.deviations.decide(lab.people[who].actor, deviation.id, {
    id: newId(),
    kind,
    reason: 'Calibrated late, no shift as found',
    readingIds: deviation.waiting?.readingIds ?? [],
    spareTestId: null,
  })
const read = (lab: TestLaboratory, load: string): Promise<Load> =>
  testApp.services.loads.read(lab.people.technician.actor, load)

describe('a check specimen weighed with a balance out of its calibration', () => {
  it('proves no constant mass until it is released, and says who can release it', async () => {
    const { lab, lapsed, load, specimens, designs, weigh } = await loaded()
    const [checked, , other] = specimens
    await weigh(checked!.testId, '735.0', lapsed.id)
    testApp.clock.advance({ hours: 1 })
    const held = await weigh(checked!.testId, '735.0', lapsed.id)
    expect(held.constantMass).toMatchObject({ reached: false })
    expect(held.constantMass!.sentence).toContain('2 weighings wait for release and prove nothing yet.')
    expect(held.checks[0]).toMatchObject({ state: 'held' })
    expect(held.checks[0]!.weighings[0]).toMatchObject({ typed: '735.0', instrument: { code: 'BAL-1' } })
    expect(held.checks[0]!.weighings[0]!.waits).toContain('The calibration of BAL-1 ended on')
    expect(held.checks[0]!.weighings[0]!.waits).toContain('a manager or engineer can release it: Person engineer')
    const [deviation, ...others] = await open(lab)
    expect(others).toEqual([])
    expect(deviation).toMatchObject({ kind: 'calibration', testId: null, waiting: { typed: ['735.0', '735.0'] } })
    expect(deviation!.specimens).toHaveLength(3)
    // It stands with each design inside, and names nothing of another's.
    for (const design of designs) {
      const { points } = await testApp.services.review.read(lab.people.engineer.actor, design!)
      const [point] = points.filter(({ kind }) => kind === 'deviation')
      expect(point).toMatchObject({ blocking: true })
      expect(point!.sentence).not.toMatch(/735/)
      expect(point!.sentence.includes(other!.code)).toBe(design === designs[1])
    }
    await expect(decide(lab, deviation!, 'engineer', 'accept')).rejects.toMatchObject({ code: 'invalid-input' })
    await decide(lab, deviation!, 'engineer', 'release')
    const released = await read(lab, load)
    expect(released.constantMass).toMatchObject({ reached: true })
    expect(released.checks[0]!.weighings.every(({ waits }) => waits === null)).toBe(true)
    expect(await open(lab)).toEqual([])
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('joins who went in since to the deviation that waits, with each of their designs', async () => {
    const { lab, lapsed, load, specimens, designs, weigh } = await loaded({ later: 1 })
    await weigh(specimens[0]!.testId, '735.0', lapsed.id)
    expect((await open(lab))[0]!.specimens).toHaveLength(2)
    const later = specimens.at(-1)!
    await testApp.services.loads.putIn(lab.people.technician.actor, load, {
      rows: rowsOf([later]),
      time: timeNow(testApp),
      temperature: null,
    })
    testApp.clock.advance({ hours: 1 })
    await weigh(specimens[0]!.testId, '734.9', lapsed.id)
    const [deviation, ...others] = (await open(lab)).filter(({ kind }) => kind === 'calibration')
    expect(others).toEqual([])
    expect(deviation!.specimens.map(({ testId }) => testId)).toContain(later.testId)
    const { points } = await testApp.services.review.read(lab.people.engineer.actor, designs[1]!)
    expect(points.map(({ key, blocking }) => [key, blocking])).toContainEqual([`deviation:${deviation!.id}`, true])
    expect((await testApp.services.ledger.verify(lab.people.manager.actor, {})).whole).toBe(true)
  })

  it('held while the load is let out, the load is let out without constant mass', async () => {
    const { lab, lapsed, specimens, weigh, takeOut } = await loaded()
    await weigh(specimens[0]!.testId, '735.0', lapsed.id)
    testApp.clock.advance({ hours: 1 })
    await weigh(specimens[0]!.testId, '735.0', lapsed.id)
    expect((await takeOut()).deviationId).not.toBeNull()
    expect((await open(lab)).map(({ kind }) => kind).sort()).toEqual(['calibration', 'condition'])
  })

  it('left out it never counts, and another check specimen is asked instead', async () => {
    const { lab, lapsed, good, load, specimens, weigh } = await loaded()
    await weigh(specimens[0]!.testId, '735.0', lapsed.id)
    const [deviation] = await open(lab)
    expect((await decide(lab, deviation!, 'manager', 'exclude')).decision).toMatchObject({ kind: 'exclude' })
    for (const hour of [0, 1]) {
      testApp.clock.advance({ hours: hour })
      for (const { testId } of specimens.slice(1)) await weigh(testId, '768.2', good.id)
    }
    const { checks, constantMass } = await read(lab, load)
    expect(checks.find(({ testId }) => testId === specimens[0]!.testId)!.weighings).toMatchObject([
      { typed: '735.0', leftOut: true, waits: null },
    ])
    expect(constantMass).toMatchObject({ reached: true })
  })

  it('is left out as it was shown, by somebody who read none of it', async () => {
    const { lab, lapsed, specimens, weigh } = await loaded()
    await weigh(specimens[0]!.testId, '735.0', lapsed.id, 'manager')
    const [shown] = await open(lab)
    await expect(decide(lab, shown!, 'manager', 'exclude')).rejects.toMatchObject({ code: 'refused-by-rule' })
    await weigh(specimens[0]!.testId, '734.9', lapsed.id)
    await expect(decide(lab, shown!, 'engineer', 'exclude')).rejects.toMatchObject({ code: 'changed-meanwhile' })
    const [now] = await open(lab)
    expect((await decide(lab, now!, 'engineer', 'exclude')).decision).toMatchObject({ kind: 'exclude' })
  })

  it('counts with a balance that is in calibration, or where none was named', async () => {
    const { lab, good, load, specimens, weigh } = await loaded()
    await weigh(specimens[0]!.testId, '735.0', good.id)
    testApp.clock.advance({ hours: 1 })
    await weigh(specimens[0]!.testId, '735.0', null)
    expect((await read(lab, load)).constantMass).toMatchObject({ reached: true })
    expect(await open(lab)).toEqual([])
  })

  it('weighed while the deviation is released either waits with it, or under the next', async () => {
    const { lab, lapsed, specimens, weigh } = await loaded()
    await weigh(specimens[0]!.testId, '735.0', lapsed.id)
    const [shown] = await open(lab)
    testApp.clock.advance({ hours: 1 })
    const [released, weighed] = await Promise.allSettled([
      decide(lab, shown!, 'engineer', 'release'),
      weigh(specimens[0]!.testId, '734.9', lapsed.id),
    ])
    expect(weighed.status).toBe('fulfilled')
    expect((await open(lab)).map(({ waiting }) => waiting?.typed)).toEqual(
      released.status === 'fulfilled' ? [['734.9']] : [['735.0', '734.9']],
    )
  })

  it('a slip put right waits for what the first waits for', async () => {
    const { lab, lapsed, load, specimens, weigh } = await loaded()
    const { checks } = await weigh(specimens[0]!.testId, '753.0', lapsed.id)
    await calibrate(lab, lapsed.id, day(60), day(0))
    const [slip] = checks[0]!.weighings
    const { value } = await testApp.services.loads.keep(lab.people.technician.actor, load, {
      id: newId(),
      key: 'warm-mass',
      testId: specimens[0]!.testId,
      typed: '735.0',
      instrumentId: null,
      time: timeNow(testApp),
      supersedes: { id: slip!.id, reason: 'digits transposed' },
    })
    expect(value.checks[0]!.weighings[0]).toMatchObject({ typed: '735.0', instrument: { code: 'BAL-1' } })
    expect(value.checks[0]!.weighings[0]!.waits).not.toBeNull()
    expect((await open(lab)).map(({ waiting }) => waiting?.typed)).toEqual([['735.0']])
  })
})

describe('a load read by somebody not authorised', () => {
  const grant = (lab: TestLaboratory, who: PersonKey) =>
    testApp.services.authorisations.grant(lab.people.manager.actor, {
      id: newId(),
      membershipId: lab.people[who].actor.membershipId,
      activity: 'method:wet-track-abrasion-1h',
      fromDay: '2026-01-01',
      untilDay: null,
      evidence: 'Observed',
    })

  it('keeps mass and temperature, and neither counts until released by somebody else', async () => {
    const { lab, load, specimens, weigh } = await loaded()
    await grant(lab, 'technician2')
    const good = await weigh(specimens[0]!.testId, '735.0', null, 'technician2')
    expect(good.checks[0]!.weighings[0]!.waits).toBeNull()
    const held = await weigh(specimens[0]!.testId, '735.0', null, 'engineer')
    expect(held.checks[0]!.weighings[1]!.waits).toContain('Person engineer was not authorised for')
    const { value } = await testApp.services.loads.keep(lab.people.technician.actor, load, {
      id: newId(),
      key: 'temperature',
      testId: null,
      typed: '60.4',
      instrumentId: null,
      time: timeNow(testApp),
      supersedes: null,
    })
    expect(value.temperatures[0]!.waits).toContain('Person technician was not authorised for')
    const deviations = await open(lab)
    expect(deviations.map(({ kind }) => kind)).toEqual(['competence', 'competence'])
    const ofEngineer = deviations.find(({ text }) => text.includes('Person engineer'))!
    // The test is told inside only: the load may hold another client's.
    expect(ofEngineer.text).not.toMatch(/abrasion/i)
    expect(ofEngineer.insideWord).toMatch(/abrasion/i)
    await expect(decide(lab, ofEngineer, 'engineer', 'release')).rejects.toMatchObject({ code: 'refused-by-rule' })
    await decide(lab, ofEngineer, 'manager', 'release')
  })
})

describe('the page of ovens and baths', () => {
  it('says of a balance and an oven out of calibration since when, and who can put it right', async () => {
    const { lab, oven } = await loaded()
    await calibrate(lab, oven.id, day(-3))
    const { body } = await lab.as('technician').get(lab.path('/loads')).expect(200)
    const { readers, instruments } = body as Ovens
    expect(readers.map(({ code, fault }) => [code, fault !== null])).toEqual([
      ['BAL-1', true],
      ['BAL-2', false],
    ])
    expect(readers[0]!.fault).toContain('A manager can record its calibration: Person manager.')
    expect(instruments[0]!.fault).toContain(`The calibration of OV-1 ended on ${day(-3)}`)
  })
})
