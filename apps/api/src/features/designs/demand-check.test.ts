import { afterAll, beforeAll, expect, test } from 'vitest'
import type { DemandCheck } from '@curebook/contract/demand'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

// The series of a made-up design: 30 discs, 2 spares, 15 strips; 5.9 % of the aggregate is taken off for the discs.
const contents = ['10', '11', '12', '13', '14'].map((emulsionPercent) => ({
  emulsionPercent,
  waterPercent: '10',
  fillerPercent: '1',
  additivePercent: '0.2',
}))
const methods = [
  {
    methodKey: 'wet-track-abrasion-1h',
    replicates: 3,
    spares: ['10', '12'].map((at) => ({ emulsionPercent: at, count: 1 })),
  },
  { methodKey: 'wet-track-abrasion-6d', replicates: 3 },
  { methodKey: 'loaded-wheel-sand-adhesion', replicates: 3 },
]
const receive = async (kind: 'aggregate' | 'emulsion' | 'filler', containers: string[]) => {
  const id = newId()
  await testApp.services.materials.create(lab.people.technician.actor, {
    id,
    kind,
    name: kind,
    sourceName: 'Skerry Edge Quarry',
    supplier: '',
    lot: '',
    receivedOn: '2026-03-02',
    note: '',
    receipt: { containers },
  })
  return id
}
const rowOf = ({ rows }: DemandCheck, component: string) => rows.find((row) => row.component === component)!

test('what arrived is held against the series and the other tests, before it is planned and after', async () => {
  const { id } = await makeDesign(testApp, lab, {
    changes: {
      aggregateId: await receive('aggregate', ['24.8 kg', '25.3 kg', '24.1 kg']),
      emulsionId: await receive('emulsion', ['5 L', '5 L']),
      fillerId: await receive('filler', ['0.25 kg']),
      scalpedPercent: '5.9',
    },
  })
  const path = lab.path(`/designs/${id}/demand`)
  const { body: planning } = await lab.as('engineer').post(path).send({ contents, methods }).expect(200)
  expect(planning).toMatchObject({ specimens: 47, refusal: null })
  // By arithmetic done elsewhere: 25.6 ÷ 0.941 + 4.5 + 8 kg of aggregate, 3.056 + 0.54 + 0.9 kg of emulsion.
  expect(Number(rowOf(planning, 'aggregate').neededG)).toBeCloseTo(39705.1, 1)
  expect(rowOf(planning, 'aggregate')).toMatchObject({ arrivedG: '74200', byVolume: false, shortG: '0' })
  expect(rowOf(planning, 'emulsion')).toMatchObject({
    seriesG: '3596',
    otherG: '900',
    arrivedG: '10000',
    byVolume: true,
  })
  expect(rowOf(planning, 'filler')).toMatchObject({ neededG: '301', shortG: '51' })
  // A sample without a container on record is not called enough.
  expect(rowOf(planning, 'water')).toMatchObject({ arrivedG: null, shortG: null })

  await lab
    .as('engineer')
    .post(lab.path(`/designs/${id}/plan`))
    .set('idempotency-key', newId())
    .send({ contents, methods })
    .expect(200)
  const { body: planned } = await lab.as('technician').get(path).expect(200)
  expect(planned.rows).toEqual(planning.rows)
})

test('a series that cannot be planned is refused beside the field', async () => {
  const { id } = await makeDesign(testApp, lab)
  const { body } = await lab
    .as('engineer')
    .post(lab.path(`/designs/${id}/demand`))
    .send({ contents: [contents[0], contents[0]], methods })
    .expect(400)
  expect(body.errors[0].path).toBe('contents.1.emulsionPercent')
})
