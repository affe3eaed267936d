import type { CastingPlan } from '@curebook/contract/casting'
import type { BenchQueue } from '@curebook/contract/bench'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { weighBatch } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-04T09:00:00Z' })
})
afterAll(() => testApp.close())

const contents = ['10', '11', '12', '13', '14']
const batch = { aggregate: '800.0', filler: '8.0', water: '80.0', additive: '1.6', emulsion: '96.0' }

test('the order is in blocks, spares last; what is cast keeps its number, and the queue offers the next one', async () => {
  const lab = await makeLaboratory(testApp)
  const { design } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({
      contents,
      methods: [
        {
          methodKey: 'wet-track-abrasion-1h',
          replicates: 3,
          spares: ['10', '12'].map((emulsionPercent) => ({ emulsionPercent, count: 1 })),
        },
        { methodKey: 'loaded-wheel-sand-adhesion', replicates: 1, spares: [] },
      ],
    }),
  )
  const read = async (): Promise<CastingPlan> =>
    (
      await lab
        .as('technician')
        .get(lab.path(`/bench/casting/${design.id}`))
        .expect(200)
    ).body
  const { designName, series } = await read()
  expect(designName).toBe(design.name)
  expect(series.map(({ methodKey, rows }) => [methodKey, rows.length])).toEqual([
    ['loaded-wheel-sand-adhesion', 5],
    ['wet-track-abrasion-1h', 17],
  ])
  const { rows } = series[1]!
  expect(rows.map(({ ordinal }) => ordinal)).toEqual(Array.from({ length: 17 }, (_, index) => index + 1))
  for (const block of [1, 2, 3]) {
    const labels = rows.filter((row) => row.block === block).map(({ label }) => label)
    expect(labels.toSorted()).toEqual(contents.map((content) => `${content}-${block}`))
    expect(rows.slice((block - 1) * 5, block * 5).every((row) => row.block === block)).toBe(true)
  }
  expect(rows.slice(15).map(({ label, block, spare }) => [label, block, spare])).toEqual([
    ['10-4', null, true],
    ['12-4', null, true],
  ])

  await weighBatch(testApp, lab, rows[0]!.batchTestId, batch)
  await lab
    .as('manager')
    .post(lab.path(`/tests/${rows[1]!.testId}/void`))
    .send({
      id: newId(),
      reason: 'Not cast: aggregate short',
      time: { eventAt: testApp.clock.now(), eventFrom: 'now', sentAt: testApp.clock.now() },
    })
    .expect(200)
  const after = (await read()).series[1]!.rows
  expect(after.map(({ testId }) => testId)).toEqual(rows.map(({ testId }) => testId))
  expect(after.map(({ state }) => state).slice(0, 3)).toEqual(['cast', 'void', 'waiting'])

  const { tasks }: BenchQueue = (await lab.as('technician').get(lab.path('/bench/queue?whose=all')).expect(200)).body
  const waiting = tasks
    .filter(({ castPlace, form }) => form === 'batch' && castPlace?.methodKey === 'wet-track-abrasion-1h')
    .toSorted((a, b) => a.castPlace!.ordinal - b.castPlace!.ordinal)
  expect(waiting).toHaveLength(15)
  expect(waiting[0]).toMatchObject({ testId: rows[2]!.batchTestId, castPlace: { form: 'disc', ordinal: 3, of: 17 } })
  const disc = tasks.find(({ testId }) => testId === rows[0]!.testId)
  expect(disc).toMatchObject({ stepKey: 'cast', castPlace: { ordinal: 1, of: 17 } })
})

test('a design that is not of this laboratory is not found', async () => {
  const [lab, elsewhere] = [await makeLaboratory(testApp), await makeLaboratory(testApp)]
  const { design } = await makePlannedDesign(testApp, lab)
  await elsewhere
    .as('technician')
    .get(elsewhere.path(`/bench/casting/${design.id}`))
    .expect(404)
})
