import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createMaintenanceService } from '#features/bench/maintenance.service'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, confirm, runDisc, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const withdraw = (lab: TestLaboratory, readingId: string, id = newId(), time = timeNow(testApp)) =>
  testApp.services.bench.withdrawals.withdraw(lab.people.technician.actor, readingId, { id, time })
const correct = (lab: TestLaboratory, readingId: string, typed: string) =>
  testApp.services.bench.readings.correct(lab.people.technician.actor, readingId, {
    id: newId(),
    typed,
    reason: 'Mistyped',
    time: timeNow(testApp),
  })
const post = (lab: TestLaboratory, testId: string, input: ReturnType<typeof aReading>) =>
  testApp.services.bench.readings.post(lab.people.technician.actor, testId, input)
const view = (lab: TestLaboratory, testId: string) =>
  testApp.services.bench.view.one(lab.people.technician.actor, testId)
const maintenance = () => createMaintenanceService({ laboratory: testApp.services.laboratory, methods: builtInMethods })
/** The projections are what the records say, and the present computation says what is stored. */
async function expectSound(lab: TestLaboratory) {
  expect(await maintenance().checkProjections(lab.labId)).toEqual([])
  expect((await maintenance().replayResults(lab.labId)).differences).toEqual([])
}

/** A batch with its aggregate weighed as 8000 g. */
async function weighed() {
  const lab = await makeLaboratory(testApp)
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const testId = specimens[0]!.batchTestId
  const again = (typed: string) => aReading(testApp, 'weigh-components', 'aggregate', typed)
  const { value } = await post(lab, testId, again('8000.0'))
  return { lab, testId, again, readingId: value.reading.id }
}

/** A disc whose last weighing is known, with the loss that follows from it. */
async function finishedDisc() {
  const lab = await makeLaboratory(testApp)
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  const { specimens } = await makePlannedDesign(testApp, lab, aSeries())
  const { testId } = specimens[0]!
  const { value } = await runDisc(testApp, lab, testId, machine.id, { w1: '759.5', w2: '704.7' })
  return { lab, testId, value, readingId: value.reading.id }
}

describe('a reading taken back right after it was entered', () => {
  it('stays, struck through with who and why; its slot is open and the next one stands in its place', async () => {
    const { lab, testId, again, readingId } = await weighed()
    testApp.clock.advance({ seconds: 8 })
    const { created, value } = await withdraw(lab, readingId)
    expect(created).toBe(true)
    expect(value.reading).toMatchObject({ typed: '8000.0', superseded: true, withdrawn: { reason: 'Mistyped' } })
    expect((await view(lab, testId)).readings.map(({ typed, superseded }) => [typed, superseded])).toEqual([
      ['8000.0', true],
    ])
    await expectSound(lab)
    testApp.clock.advance({ seconds: 20 })
    const next = await post(lab, testId, again('800.0'))
    expect(next.value.reading).toMatchObject({
      typed: '800.0',
      superseded: false,
      supersedes: { id: readingId, typed: '8000.0', reason: 'Mistyped' },
    })
    expect(next.value.reading.withdrawn).toBeUndefined()
    await expectSound(lab)
  })

  it('is an act of its own in the ledger, with the row that it wrote', async () => {
    const { lab, readingId } = await weighed()
    const id = newId()
    await withdraw(lab, readingId, id)
    const entries = await testApp.services.laboratory.inLaboratory(lab.people.technician.actor, ({ prisma }) =>
      prisma.ledgerEntry.findMany({ where: { labId: lab.labId, subjectId: readingId }, orderBy: { at: 'asc' } }),
    )
    expect(entries.map(({ action }) => action)).toEqual(['reading:create', 'reading:withdraw'])
    expect(entries[1]!.content).toContain(id)
    expect(entries[1]!.content).toContain('reading_withdrawal')
  })

  it('takes its result along, and the next one brings it back by its own time', async () => {
    const { lab, testId, value, readingId } = await finishedDisc()
    expect(value.testState).toBe('done')
    const first = value.results.filter(({ value: digits }) => digits !== null)
    expect(first.length).toBeGreaterThan(0)
    testApp.clock.advance({ seconds: 5 })
    const withdrawn = await withdraw(lab, readingId)
    expect(withdrawn.value.testState).toBe('in-work')
    expect(withdrawn.value.results.map(({ value: digits, refusal }) => [digits, refusal?.code])).toEqual(
      first.map(() => [null, 'reading-withdrawn']),
    )
    await expectSound(lab)
    testApp.clock.advance({ minutes: 3 })
    const next = await post(lab, testId, aReading(testApp, 'weigh-after', 'mass', '740.7'))
    expect(next.value.results.find(({ key, unit }) => key === 'loss' && unit === 'g')?.value).toBe('18.8')
    expect(next.value.results).toHaveLength(first.length)
    expect(next.value.testState).toBe('done')
    const slots = await testApp.services.laboratory.inLaboratory(lab.people.technician.actor, ({ prisma }) =>
      prisma.slotNow.findMany({ where: { labId: lab.labId, testId, stepKey: 'weigh-after' } }),
    )
    expect(slots.map(({ eventAt }) => eventAt.toISOString())).toEqual([testApp.clock.now().toISOString()])
    await expectSound(lab)
  })

  it('sent again is the same withdrawal', async () => {
    const { lab, readingId } = await weighed()
    const [id, time] = [newId(), timeNow(testApp)]
    await withdraw(lab, readingId, id, time)
    testApp.clock.advance({ hours: 3 })
    const again = await withdraw(lab, readingId, id, { ...time, sentAt: testApp.clock.now().toISOString() })
    expect(again).toMatchObject({ created: false, value: { reading: { withdrawn: { reason: 'Mistyped' } } } })
  })

  it('counts though its reading hung for minutes on its way, and seems later for that', async () => {
    const { lab, testId, readingId } = await weighed()
    await withdraw(lab, readingId)
    const entered = timeNow(testApp)
    const time = { ...entered, sentAt: entered.eventAt }
    const eventAt = new Date(Date.parse(entered.eventAt) + 5_000).toISOString()
    testApp.clock.advance({ minutes: 3 })
    const { value } = await post(lab, testId, aReading(testApp, 'weigh-components', 'aggregate', '80.0', { time }))
    const sentAt = testApp.clock.now().toISOString()
    expect((await withdraw(lab, value.reading.id, newId(), { ...entered, eventAt, sentAt })).created).toBe(true)
  })

  it('counts from the reading’s arrival where both waited on the device', async () => {
    const { lab, testId, readingId } = await weighed()
    await withdraw(lab, readingId)
    const entered = timeNow(testApp)
    testApp.clock.advance({ seconds: 5 })
    const pressed = timeNow(testApp)
    testApp.clock.advance({ hours: 2 })
    const sentAt = testApp.clock.now().toISOString()
    const late = aReading(testApp, 'weigh-components', 'aggregate', '80.0', { time: { ...entered, sentAt } })
    const { value } = await post(lab, testId, late)
    expect((await withdraw(lab, value.reading.id, newId(), { ...pressed, sentAt })).created).toBe(true)
    // The reading arrived at once, and only the withdrawal waited.
    const arrived = await post(lab, testId, aReading(testApp, 'weigh-components', 'aggregate', '81.0'))
    testApp.clock.advance({ seconds: 9 })
    const soon = timeNow(testApp)
    testApp.clock.advance({ hours: 5 })
    const sent = { ...soon, sentAt: testApp.clock.now().toISOString() }
    expect((await withdraw(lab, arrived.value.reading.id, newId(), sent)).created).toBe(true)
    await expectSound(lab)
  })
})

describe('is refused', () => {
  const refused = (sentence: RegExp) => ({
    code: 'refused-by-rule',
    message: expect.stringMatching(sentence) as string,
  })

  it('more than a minute after the reading arrived', async () => {
    const { lab, readingId } = await weighed()
    testApp.clock.advance({ seconds: 61 })
    await expect(withdraw(lab, readingId)).rejects.toMatchObject(refused(/within a minute/))
    expect((await correct(lab, readingId, '800.0')).created).toBe(true)
  })

  it('at a time that somebody tells, or before the reading itself', async () => {
    const { lab, readingId } = await weighed()
    testApp.clock.advance({ hours: 3 })
    const sentAt = testApp.clock.now().toISOString()
    const told = (hours: number) => new Date(testApp.clock.now().getTime() - hours * 3_600_000).toISOString()
    const at = testApp.services.bench.withdrawals.withdraw(lab.people.technician.actor, readingId, {
      id: newId(),
      time: { eventAt: told(3), eventFrom: 'at', note: 'Forgot', sentAt },
    })
    await expect(at).rejects.toMatchObject({ code: 'invalid-input' })
    const before = withdraw(lab, readingId, newId(), { eventAt: told(4), eventFrom: 'now', sentAt })
    await expect(before).rejects.toMatchObject({ code: 'invalid-input' })
  })

  it('to anybody but who entered it', async () => {
    const { lab, readingId } = await weighed()
    const other = testApp.services.bench.withdrawals.withdraw(lab.people.manager.actor, readingId, {
      id: newId(),
      time: timeNow(testApp),
    })
    await expect(other).rejects.toMatchObject(refused(/Only who entered/))
  })

  it('once an act that rests on it was confirmed', async () => {
    const { lab, testId, readingId } = await weighed()
    testApp.clock.advance({ seconds: 2 })
    await confirm(testApp, lab, [testId], 'mix', 'start')
    await expect(withdraw(lab, readingId)).rejects.toMatchObject(refused(/rests on it/))
  })

  it('for a reading that was corrected, and for one that is not there', async () => {
    const { lab, readingId } = await weighed()
    await correct(lab, readingId, '800.0')
    await expect(withdraw(lab, readingId)).rejects.toMatchObject({ code: 'conflict' })
    await expect(withdraw(lab, newId())).rejects.toMatchObject({ code: 'not-found' })
  })

  it('by the database too, where a correction stands already', async () => {
    const { lab, testId, readingId } = await weighed()
    await correct(lab, readingId, '800.0')
    const written = testApp.services.laboratory.inLaboratory(lab.people.technician.actor, ({ prisma }) =>
      prisma.readingWithdrawal.create({
        data: {
          labId: lab.labId,
          id: newId(),
          readingId,
          testId,
          reason: 'Mistyped',
          eventAt: testApp.clock.now(),
          sentAt: testApp.clock.now(),
          receivedAt: testApp.clock.now(),
          offsetMs: 0,
          requestDig: Buffer.alloc(32),
          byId: lab.people.technician.actor.membershipId,
          at: testApp.clock.now(),
        },
      }),
    )
    await expect(written).rejects.toThrow(/A reading that was corrected is not withdrawn/)
  })
})

describe('two at once', () => {
  it('two withdrawals are one: the other is told by whom', async () => {
    const { lab, readingId } = await weighed()
    const send = (id: string) =>
      lab
        .as('technician')
        .post(lab.path(`/readings/${readingId}/withdrawal`))
        .send({ id, time: timeNow(testApp) })
    const answers = await Promise.all([send(newId()), send(newId())])
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409])
    expect(answers.find(({ status }) => status === 409)!.body.detail).toMatch(/withdrawn already, by /)
  })

  it('one withdrawal sent twice is stored once', async () => {
    const { lab, readingId } = await weighed()
    const [id, time] = [newId(), timeNow(testApp)]
    const answers = await Promise.all([withdraw(lab, readingId, id, time), withdraw(lab, readingId, id, time)])
    expect(answers.map(({ created }) => created).toSorted()).toEqual([false, true])
  })

  it('of a withdrawal and a correction one stands, and the other is told', async () => {
    const { lab, testId, readingId } = await weighed()
    const outcomes = await Promise.allSettled([withdraw(lab, readingId), correct(lab, readingId, '800.0')])
    expect(outcomes.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected'])
    expect(outcomes.find(({ status }) => status === 'rejected')).toMatchObject({ reason: { code: 'conflict' } })
    const standing = (await view(lab, testId)).readings.filter(({ superseded }) => !superseded)
    expect(standing.map(({ typed }) => typed)).toEqual(outcomes[0].status === 'fulfilled' ? [] : ['800.0'])
    await expectSound(lab)
  })

  it('a correction of what was taken back says so', async () => {
    const { lab, readingId } = await weighed()
    await withdraw(lab, readingId)
    await expect(correct(lab, readingId, '800.0')).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('withdrawn meanwhile') as string,
    })
  })

  it('two next readings for an open slot are two values: one stands, both are told', async () => {
    const { lab, testId, again, readingId } = await weighed()
    await withdraw(lab, readingId)
    const outcomes = await Promise.allSettled([post(lab, testId, again('800.0')), post(lab, testId, again('801.0'))])
    expect(outcomes.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected'])
    expect(outcomes.find(({ status }) => status === 'rejected')).toMatchObject({ reason: { code: 'conflict' } })
    await expectSound(lab)
  })
})
