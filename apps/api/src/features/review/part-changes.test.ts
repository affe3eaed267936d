import { afterAll, beforeAll, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { makeTestedDesign, recommend, type Weighings } from '../../../../../tests/support/factories/tested-design.ts'

let testApp: TestApp

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T07:00:00Z' })
})
afterAll(() => testApp.close())

const twoDiscs: Weighings = {
  'wet-track-abrasion-1h': {
    '12': [
      ['762.0', '750.0'],
      ['763.0', '751.4'],
    ],
  },
}

/** A lot of hose, told as fitted at a moment that lies back. */
async function fitAt(lab: TestLaboratory, machineId: string, lot: string, eventAt: string) {
  const time = { ...timeNow(testApp), eventAt, eventFrom: 'paper' as const }
  await testApp.services.parts.fit(lab.people.technician.actor, machineId, {
    id: newId(),
    kind: 'hose',
    lot,
    hardness: null,
    time,
  })
}

it('says once a curve and change where the hose changed, in the review and beside the specimens that ran on the later lot', async () => {
  const lab = await makeLaboratory(testApp)
  const { design, machineId } = await makeTestedDesign(testApp, lab, {
    weighings: twoDiscs,
    soakMinutes: ({ replicate }) => (replicate === 1 ? 62 : 64),
  })
  await recommend(testApp, lab, design.id)
  const engineer = lab.people.engineer.actor
  const points = async () =>
    (await testApp.services.review.read(engineer, design.id)).points.filter(({ kind }) => kind === 'part-change')
  expect(await points()).toEqual([])

  const runs = (await testApp.services.designs.specimens(engineer, design.id)).items
  const startOf = async (testId: string) =>
    (await testApp.services.bench.view.one(engineer, testId)).events.find(({ stepKey }) => stepKey === 'abrade')!
      .eventAt
  const [first, second] = await Promise.all(runs.map(({ testId }) => startOf(testId)))
  await fitAt(lab, machineId, 'H-07', new Date(Date.parse(first!) - 60_000).toISOString())
  expect(await points()).toEqual([])
  await fitAt(lab, machineId, 'H-08', new Date(Date.parse(second!) - 60_000).toISOString())
  const [point, ...others] = await points()
  expect(others).toEqual([])
  expect(point).toMatchObject({ code: runs[1]!.code, blocking: false, acknowledged: null })
  expect(point!.sentence).toBe(
    'Wet track abrasion, 1-hour soak: hose of WTA-1 changed within the series: H-07 up to 12-1, H-08 from 12-2.',
  )

  const { content } = await testApp.services.laboratory.inLaboratory(engineer, (tx) =>
    testApp.services.review.standingIn(tx, design.id),
  )
  expect(content.specimens.map(({ label, remark }) => [label, remark])).toEqual([
    ['12-1', ''],
    ['12-2', 'hose lot H-08, the series began on H-07'],
  ])
  expect(content.specimens[0]!.events.find(({ label }) => label === 'Run started')?.note).toBe('hose lot H-07')
})
