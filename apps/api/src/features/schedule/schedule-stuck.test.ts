import type { SpecimenRow } from '@curebook/contract/designs'
import type { Deviation } from '@curebook/contract/deviations'
import type { Schedule } from '@curebook/contract/schedule'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { confirm, runDisc, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
let first: SpecimenRow, second: SpecimenRow, third: SpecimenRow, spare: SpecimenRow

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  testApp.clock.set('2026-03-02T08:00:00Z')
  lab = await makeLaboratory(testApp)
  const { specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({
      methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: [{ emulsionPercent: '12', count: 1 }] }],
    }),
  )
  ;[first, second, third, spare] = specimens as [SpecimenRow, SpecimenRow, SpecimenRow, SpecimenRow]
})
afterAll(() => testApp.close())

const read = async (): Promise<Schedule> => (await lab.as('manager').get(lab.path('/schedule')).expect(200)).body
const rowOf = ({ rows }: Schedule, { testId }: SpecimenRow) => rows.find((row) => row.testId === testId)
const voidIt = ({ testId }: SpecimenRow) =>
  lab
    .as('manager')
    .post(lab.path(`/tests/${testId}/void`))
    .send({ id: newId(), reason: 'Felt tore at the clamp', time: timeNow(testApp) })
    .expect(200)

test('a begun test whose window passed stands still; one never begun is only late', async () => {
  await confirm(testApp, lab, [third.testId], 'cast', 'start')
  testApp.clock.advance({ hours: 4 })
  await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma }) => {
    // The batch of the third is cast; that of the second should have been.
    await prisma.due.deleteMany({ where: { labId: lab.labId, testId: third.batchTestId } })
    await prisma.due.updateMany({
      where: { labId: lab.labId, testId: second.batchTestId },
      data: { closesAt: new Date('2026-03-02T11:00:00Z') },
    })
  })
  const { counts, rows } = await read()
  expect(counts).toMatchObject({ late: 2, stuck: 1, waitingDecision: 0 })
  expect(rows.filter(({ started, urgency }) => started && urgency === 'late').map(({ testId }) => testId)).toEqual([
    third.testId,
  ])
})

test('a finished disc whose soak missed its window waits for a decision, until there is one', async () => {
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  await runDisc(testApp, lab, first.testId, machine.id, { w1: '759.5', w2: '740.7', soakMinutes: 79 })
  const before = await read()
  expect(rowOf(before, first)).toMatchObject({ held: 'decision', stepKey: null, stepTitle: 'Decide the deviation' })
  expect(before.counts).toMatchObject({ stuck: 1, waitingDecision: 1, decisionsElsewhere: 0 })
  const [deviation] = (await lab.as('manager').get(lab.path('/deviations?open=yes')).expect(200)).body
    .items as Deviation[]
  await lab
    .as('manager')
    .post(lab.path(`/deviations/${deviation!.id}/decisions`))
    .send({ id: newId(), kind: 'accept', reason: 'A longer soak can only raise the loss' })
    .expect(200)
  const after = await read()
  expect(rowOf(after, first)?.held ?? null).toBeNull()
  expect(after.counts).toMatchObject({ stuck: 0, waitingDecision: 0 })
})

test('a void disc waits for its spare while one stands ready, and no longer once it stands in its place', async () => {
  await voidIt(second)
  const before = await read()
  expect(rowOf(before, second)).toMatchObject({
    held: 'spare',
    stepKey: null,
    stepTitle: 'Put a spare in its place',
    form: 'disc',
  })
  expect(before.counts).toMatchObject({ stuck: 1, waitingDecision: 0, unassigned: 3 })
  await lab
    .as('manager')
    .post(lab.path(`/tests/${second.testId}/replace`))
    .send({ spareTestId: spare.testId, reason: 'Second disc void' })
    .expect(200)
  expect(rowOf(await read(), second)).toBeUndefined()
  await voidIt(third)
  expect((await read()).counts.stuck).toBe(0)
})

test('a deviation of a batch holds its specimen, and one of an instrument is counted elsewhere', async () => {
  const bath = await makeInstrument(testApp, lab, { kind: 'bath', code: 'BATH-1', name: 'Bath' })
  await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma }) => {
    const deviation = {
      labId: lab.labId,
      kind: 'other',
      openedByRule: true,
      text: 'Emulsion over-poured',
      at: new Date(),
    }
    await prisma.deviation.createMany({
      data: [
        { ...deviation, id: newId(), testId: third.batchTestId },
        { ...deviation, id: newId(), testId: third.testId },
        { ...deviation, id: newId(), instrumentId: bath.id, text: 'Bath above 26 °C' },
      ],
    })
  })
  const schedule = await read()
  expect(schedule.rows.filter(({ held }) => held === 'decision').map(({ testId }) => testId)).toEqual([third.testId])
  expect(schedule.counts).toMatchObject({ stuck: 1, waitingDecision: 1, decisionsElsewhere: 1, unassigned: 4 })
})

test('one deviation of a bath holds every specimen that was inside', async () => {
  const bath = await makeInstrument(testApp, lab, { kind: 'bath', code: 'BATH-1', name: 'Bath' })
  await testApp.services.laboratory.inLaboratory(lab.people.manager.actor, async ({ prisma, at }) => {
    const id = newId()
    await prisma.deviation.createMany({
      data: [
        { labId: lab.labId, id, kind: 'condition', openedByRule: true, instrumentId: bath.id, text: '27.4 °C', at },
      ],
    })
    await prisma.deviationTest.createMany({
      data: [first, second].map(({ testId }) => ({ labId: lab.labId, deviationId: id, testId, at })),
    })
  })
  const { rows, counts } = await read()
  expect(rows.filter(({ held }) => held !== null).map(({ testId }) => testId)).toEqual([first.testId, second.testId])
  expect(counts).toMatchObject({ stuck: 2, waitingDecision: 2, decisionsElsewhere: 0 })
})
