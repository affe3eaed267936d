import type { SpecimenRow } from '@curebook/contract/designs'
import type { WrittenLimit } from '@curebook/contract/own-specifications'
import { afterAll, beforeAll, beforeEach, expect, it, vi } from 'vitest'
import { rowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makePlannedDesign, makeSpecification } from '../../../../../tests/support/factories/design.ts'
import { makeFactor, makeInstrument } from '../../../../../tests/support/factories/instrument.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { recommend, runToTheEnd, weighBatches } from '../../../../../tests/support/factories/tested-design.ts'
import { findPoints } from './range.repository.ts'

vi.setConfig({ testTimeout: 120_000 })

const en = 'wet-track-abrasion-en'
const threeDays = 'wet-track-abrasion-3d'
/** Losses of 20, 12 and 7 g; × 32.9 g/m² per g: 658, 394.8 and 230.3 g/m². */
const weighed: Readonly<Record<string, readonly [string, string]>> = {
  '10': ['760.0', '740.0'],
  '12': ['762.0', '750.0'],
  '14': ['764.0', '757.0'],
}

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

/** One disc at each content, weighed to the end. */
async function testedBy(
  methodKey: string,
  specificationId: string,
  { units = ['g/m²'], soakHours = 62 / 60 }: { units?: readonly ('g/m²' | 'g/ft²')[]; soakHours?: number } = {},
) {
  const instrumentId = (await makeInstrument(testApp, lab)).id
  for (const unit of units)
    await makeFactor(testApp, lab, instrumentId, { unit, ...(unit === 'g/m²' ? {} : { typed: '3.06' }) })
  const contents = Object.keys(weighed).map((emulsionPercent) => ({
    emulsionPercent,
    waterPercent: '10',
    fillerPercent: '1',
    additivePercent: '0.2',
  }))
  const series = { contents, methods: [{ methodKey, replicates: 1, spares: [] }] }
  const { design, specimens } = await makePlannedDesign(testApp, lab, series, { changes: { specificationId } })
  await weighBatches(testApp, lab, specimens)
  await runToTheEnd(testApp, lab, specimens, {
    instrumentId,
    hours: {
      'cure start': 1,
      'cure end': 20,
      'cool end': 1,
      'abrade start': soakHours,
      'dry-back end': 17,
      'cool-after end': 1,
    },
    weighed: ({ emulsionPercent }: SpecimenRow) => weighed[emulsionPercent!]!,
  })
  return design
}
const adopt12273 = async () => {
  const { items } = await testApp.services.specifications.builtIn()
  const { variants } = items.find(({ key }) => key === 'en-12273-2008')!
  const { aggregateType, traffic } = variants[0]!
  const { value } = await testApp.services.specifications.adopt(lab.people.engineer.actor, {
    id: newId(),
    builtInKey: 'en-12273-2008',
    name: 'Declared values',
    aggregateType,
    traffic,
    changes: [],
  })
  return value.id
}
const rangeOf = async (designId: string) =>
  (
    await lab
      .as('engineer')
      .get(lab.path(`/designs/${designId}/range`))
      .expect(200)
  ).body
const signedOf = (designId: string) =>
  testApp.services.laboratory.inLaboratory(
    lab.people.engineer.actor,
    async (tx) => (await testApp.services.review.standingIn(tx, designId)).content,
  )
const inUnit = (specimens: Awaited<ReturnType<typeof signedOf>>['specimens'], key: string) =>
  specimens.map(({ results }) =>
    results.filter((result) => result.key === key).map(({ value, unit, calculation }) => [value, unit, !!calculation]),
  )
type Keyed = { key: string }

it('has its curve; declared without a value it sets no end, and its value at the recommended content is shown', async () => {
  const { id } = await testedBy(en, await adopt12273())
  const view = await rangeOf(id)
  const curve = view.curves.find(({ key }: Keyed) => key === 'wearing')
  expect(curve).toMatchObject({ methodKey: en, unit: 'g/m²', limit: null, crossing: null })
  expect(curve.means.map(({ y }: { y: string }) => y)).toEqual(['658', '394.8', '230.3'])
  expect([view.minimum.kind, view.maximum.kind]).toEqual(['none', 'none'])
  expect(view.sentence).toBe('Nothing tested can be held against a limit: no range follows from it.')
  expect(view.enterable.map(({ key }: Keyed) => key)).not.toContain('wearing')

  await recommend(testApp, lab, id)
  const row = (await rangeOf(id)).panel.find(({ key }: Keyed) => key === 'wearing')
  expect(row).toMatchObject({ verdict: 'no limit held', value: '394.8', unit: 'g/m²', at: 'at 12 % emulsion', n: 1 })
  expect(inUnit((await signedOf(id)).specimens, 'loss-per-area')).toEqual([
    [['658', 'g/m²', true]],
    [['394.8', 'g/m²', true]],
    [['230.3', 'g/m²', true]],
  ])
})

it('bears on the minimum where a value is held', async () => {
  const limit: WrittenLimit = {
    key: 'wearing',
    property: 'wearing',
    label: 'Wearing, wet track',
    soak: null,
    traffic: null,
    sense: 'max',
    value: '500',
    upper: null,
    unit: 'g/m²',
    condition: null,
    rounding: 'none',
    decisionRule: 'simple acceptance',
    uncertainty: null,
    source: 'Contract 12',
    clause: null,
    method: 'EN 12274-5',
    group: 'mix',
    certainty: 'by contract',
  }
  const { value } = await testApp.services.specifications.write(lab.people.engineer.actor, {
    id: newId(),
    name: 'Contract 12',
    source: 'Contract 12',
    aggregateType: '0/6',
    traffic: 'heavy',
    residualBand: { from: null, to: null, source: 'Contract 12', certainty: 'by contract' },
    gradationBand: null,
    limits: [limit],
  })
  const { id } = await testedBy(en, value.id)
  const { minimum } = await rangeOf(id)
  expect(minimum.kind).toBe('crossing')
  // Means of 658 and 394.8 g/m² at 6.26 and 7.512 %.
  expect(Number(minimum.residualPercent)).toBeCloseTo(6.26 + ((658 - 500) / (658 - 394.8)) * 1.252, 10)
})

it('a soak that the specification does not ask for is signed with its results of record, in every unit they stand in', async () => {
  const specification = await makeSpecification(testApp, lab)
  const design = await testedBy(threeDays, specification.id, { units: ['g/m²', 'g/ft²'], soakHours: 72.5 })
  const { specimens } = await signedOf(design.id)
  expect(inUnit(specimens, 'loss-per-area').map((results) => results.toSorted())).toEqual([
    [
      ['61.2', 'g/ft²', true],
      ['658', 'g/m²', true],
    ],
    [
      ['36.72', 'g/ft²', true],
      ['394.8', 'g/m²', true],
    ],
    [
      ['21.42', 'g/ft²', true],
      ['230.3', 'g/m²', true],
    ],
  ])
  const points = await testApp.services.laboratory.inLaboratorySql(lab.people.engineer.actor, (raw) =>
    findPoints(rowsSql(raw), {
      designId: design.id,
      upTo: 1,
      methodKeys: [threeDays],
      resultKeys: ['loss-per-area', 'loss'],
    }),
  )
  expect(points.map(({ label, unit }) => `${label} ${unit}`)).toEqual(
    ['10-1', '12-1', '14-1'].flatMap((label) => [`${label} g`, `${label} g/ft²`, `${label} g/m²`]),
  )
})
