import type { SpecimenRow } from '@curebook/contract/designs'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { atOnce } from '../../../../../tests/support/at-once.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let another: Awaited<ReturnType<TestApp['startAnother']>>
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  another = await testApp.startAnother()
})
afterAll(async () => {
  await another.close()
  await testApp.close()
})

async function planned(replicates: number, spares: number) {
  const lab = await makeLaboratory(testApp)
  const { design, specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({
      methods: [{ methodKey: 'wet-track-abrasion-1h', replicates, spares: [{ emulsionPercent: '12', count: spares }] }],
    }),
  )
  const of = (purpose: string) => specimens.filter((specimen) => specimen.purpose === purpose)
  return { lab, design, series: of('series'), spares: of('spare'), technician: lab.people.technician.actor }
}

const lost = () => ({ id: newId(), reason: 'Felt tore', time: timeNow(testApp) })
const held = (...specimens: (SpecimenRow | string)[]) => ({
  sql: 'select from test_now where test_id = any($1) for update',
  values: [specimens.map((one) => (typeof one === 'string' ? one : one.testId))],
})

it('a batch weighed while its specimen is lost: the reading is kept, and nobody is told to send it again', async () => {
  const { series, technician } = await planned(1, 1)
  const [disc] = series as [SpecimenRow]
  const outcomes = await atOnce(
    testApp.ownerUrl,
    held(disc.batchTestId),
    () =>
      another.services.bench.readings.post(
        technician,
        disc.batchTestId,
        aReading(testApp, 'weigh-components', 'aggregate', '800.0'),
      ),
    () => testApp.services.bench.ending.void(technician, disc.testId, lost()),
  )
  expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled'])
  const batch = await testApp.services.bench.view.one(technician, disc.batchTestId)
  expect([batch.readings.map(({ typed }) => typed), batch.voided?.reason]).toEqual([['800.0'], 'Felt tore'])
})

it('a batch and its specimen lost at once are both lost, each once', async () => {
  const { lab, series, technician } = await planned(1, 1)
  const [disc] = series as [SpecimenRow]
  const outcomes = await atOnce(
    testApp.ownerUrl,
    held(disc.batchTestId),
    () => another.services.bench.ending.void(technician, disc.batchTestId, lost()),
    () => testApp.services.bench.ending.void(technician, disc.testId, lost()),
  )
  expect(outcomes[0].status).toBe('fulfilled')
  expect(outcomes[1]).toMatchObject({ reason: { code: 'wrong-state' } })
  for (const id of [disc.testId, disc.batchTestId])
    expect((await testApp.services.bench.view.one(technician, id)).voided?.reason).toBe('Felt tore')
  expect(await testApp.services.ledger.verify(lab.people.auditor.actor, {})).toMatchObject({ whole: true })
})

it('one spare asked for by two lost specimens stands in the place of one', async () => {
  const { lab, design, series, spares, technician } = await planned(2, 1)
  const [first, second, spare] = [...series, ...spares] as [SpecimenRow, SpecimenRow, SpecimenRow]
  for (const { testId } of [first, second]) await testApp.services.bench.ending.void(technician, testId, lost())
  const replace =
    (of: SpecimenRow, { services } = testApp as Pick<TestApp, 'services'>) =>
    () =>
      services.bench.ending.replace(technician, of.testId, { spareTestId: spare.testId, reason: 'Spare' })
  const outcomes = await atOnce(testApp.ownerUrl, held(spare), replace(first), replace(second, another))
  expect(outcomes).toMatchObject([{ status: 'fulfilled' }, { reason: { code: 'invalid-input' } }])
  const { items } = await testApp.services.designs.specimens(lab.people.engineer.actor, design.id)
  expect(items.find(({ testId }) => testId === spare.testId)?.replaces).toBe(first.label)
})

it('one lost specimen given two spares has one in its place', async () => {
  const { lab, design, series, spares, technician } = await planned(1, 2)
  const [disc] = series as [SpecimenRow]
  await testApp.services.bench.ending.void(technician, disc.testId, lost())
  const replace =
    (by: SpecimenRow, { services } = testApp as Pick<TestApp, 'services'>) =>
    () =>
      services.bench.ending.replace(technician, disc.testId, { spareTestId: by.testId, reason: 'Spare' })
  const outcomes = await atOnce(testApp.ownerUrl, held(disc), replace(spares[0]!), replace(spares[1]!, another))
  expect(outcomes).toMatchObject([{ status: 'fulfilled' }, { reason: { code: 'wrong-state' } }])
  const { items } = await testApp.services.designs.specimens(lab.people.engineer.actor, design.id)
  expect(items.flatMap(({ replaces }) => replaces ?? [])).toEqual([disc.label])
})

it('a specimen that a decision repeats with a spare planned before it, while somebody puts that spare in its place', async () => {
  const { lab, design, spares, technician } = await planned(1, 1)
  const [spare] = spares as [SpecimenRow]
  const { items } = await testApp.services.designs.plan(
    lab.people.engineer.actor,
    design.id,
    aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 2, spares: [] }] }),
    newId(),
  )
  const disc = items.find(({ purpose, testId }) => purpose === 'series' && testId > spare.testId)!
  const deviationId = newId()
  await testApp.services.laboratory.inLaboratory(technician, ({ prisma, actor, at }) =>
    prisma.deviation.createMany({
      data: [
        {
          ...{ labId: actor.labId, id: deviationId, kind: 'other', openedByRule: false, byId: actor.membershipId, at },
          ...{ testId: disc.testId, itemId: disc.itemId, text: 'The felt tore at the edge.' },
        },
      ],
    }),
  )
  const outcomes = await atOnce(
    testApp.ownerUrl,
    held(disc),
    () =>
      testApp.services.deviations.decide(lab.people.engineer.actor, deviationId, {
        ...{ id: newId(), kind: 'repeat', reason: 'Run the spare', spareTestId: spare.testId },
      }),
    () =>
      another.services.bench.ending.replace(technician, disc.testId, { spareTestId: spare.testId, reason: 'Spare' }),
  )
  expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled'])
  const now = await testApp.services.designs.specimens(lab.people.engineer.actor, design.id)
  expect(now.items.find(({ testId }) => testId === spare.testId)?.replaces).toBe(disc.label)
})
