import { builtInMethods } from '@curebook/trade/methods/catalogue'
import type { ReplicateGroup, Replicates } from '@curebook/contract/replicates'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading } from '../../../../../tests/support/factories/bench.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { stirring } from '../../../../../tests/support/factories/panel-method.ts'
import { pointsOf, read } from '../../../../../tests/support/factories/reviewed.ts'
import { makeTestedDesign, weighBatches } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

/** The same with a repeatability of two results of 20 s. */
const repeated = {
  ...stirring,
  key: 'made-up-repeated',
  name: 'Made-up repeated',
  answers: [],
  editions: stirring.editions.map((edition) => ({
    ...edition,
    parameters: {
      ...edition.parameters,
      r: { value: '20', unit: 's', label: 'Repeatability', source: 'Invented', certainty: 'published' as const },
    },
  })),
  results: stirring.results.map((result) => (result.key === 'time' ? { ...result, repeatability: 'r' } : result)),
}
const apart = { ...stirring, key: 'made-up-apart', name: 'Made-up apart', answers: [], noReplicates: 'each is warmer' }

let testApp: TestApp
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z', methods: [stirring, repeated, apart, ...builtInMethods] })
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const replicatesOf = async (designId: string): Promise<Replicates> =>
  (
    await lab
      .as('auditor')
      .get(lab.path(`/designs/${designId}/replicates`))
      .expect(200)
  ).body

async function stirred(designId: string, methodKey: string, seconds: readonly string[], emulsionPercent = '12') {
  const { body } = await lab
    .as('engineer')
    .post(lab.path(`/designs/${designId}/plan`))
    .set('idempotency-key', newId())
    .send({
      contents: [{ emulsionPercent, waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey, replicates: seconds.length, spares: [] }],
    })
    .expect(200)
  await weighBatches(testApp, lab, body.items)
  for (const [index, { testId }] of (body.items as { testId: string }[]).entries())
    await lab
      .as('technician')
      .post(lab.path(`/tests/${testId}/readings`))
      .send(aReading(testApp, 'stir', 'seconds', seconds[index]!))
      .expect(201)
  return body.items as { testId: string; code: string; label: string }[]
}
const only = ({ groups }: Replicates): ReplicateGroup => {
  expect(groups).toHaveLength(1)
  return groups[0]!
}

it('the e-Handbook’s eight results: Grubbs and Dixon name the last, with what they were held against, and so does the review', async () => {
  const { id } = await makeDesign(testApp, lab)
  // NIST/SEMATECH e-Handbook 1.3.5.17, a hundred times, since this is read in whole seconds: no statistic depends on it.
  const seconds = ['19931', '19953', '20019', '20082', '20192', '20195', '20218', '24557']
  const tests = await stirred(id, stirring.key, seconds)
  const last = tests.at(-1)!
  const group = only(await replicatesOf(id))
  expect(group).toMatchObject({
    ...{ place: 'panel', methodKey: stirring.key, label: 'Stirring time', unit: 's', emulsionPercent: '12', n: 8 },
    ...{ range: '4626', repeatability: null, noRepeatability: 'none-published', acceptable: null, untested: null },
  })
  expect(Number(group.mean)).toBeCloseTo(20643.375, 9)
  const [grubbs, dixon] = group.outliers
  expect(grubbs).toMatchObject({
    test: 'Grubbs',
    exceeds: true,
    significancePercent: '5',
    suspect: { code: last.code },
  })
  expect(Number(grubbs!.statistic)).toBeCloseTo(2.468765, 6)
  // Two-sided, 5 %, n = 8: ASTM E178 prints 2.13.
  expect(Number(grubbs!.critical)).toBeCloseTo(2.1266, 4)
  expect(dixon).toMatchObject({ test: 'Dixon', ratio: 'r11', exceeds: true, suspect: { value: '24557' } })

  const points = pointsOf(await read(lab, id), 'odd')
  expect(points).toMatchObject([{ code: last.code, testId: last.testId, blocking: false, acknowledged: null }])
  expect(points[0]!.sentence).toMatch(
    /^Stirring time at 12 % emulsion: 24557.s of 12-8 \(\w+\) lies further out of 8 results than chance explains \(Grubbs T = 2\.4688 over 2\.1266; Dixon r11 = 0\.9424 over 0\.\d{4}; two-sided, 5 %\)\. It counts until a cause is found and recorded\.$/,
  )
})

it('two results further apart than the edition’s repeatability are a point of the review; within it they are none', async () => {
  const far = await makeDesign(testApp, lab)
  await stirred(far.id, repeated.key, ['170', '191'])
  expect(only(await replicatesOf(far.id))).toMatchObject({
    repeatability: { value: '20', unit: 's', source: 'Invented', certainty: 'published' },
    ...{ noRepeatability: null, acceptable: { limit: '20', within: false }, outliers: [], untested: 'too-few' },
  })
  expect(
    pointsOf(await read(lab, far.id), 'odd').map(({ sentence, code }) => [sentence.replaceAll('\u00a0', ' '), code]),
  ).toEqual([
    [
      'Stirring time at 12 % emulsion: 2 results span 21 s; by the repeatability of the method 20 s is acceptable for so many (r = 20 s, Invented).',
      null,
    ],
  ])

  const near = await makeDesign(testApp, lab)
  await stirred(near.id, repeated.key, ['170', '190'])
  expect(only(await replicatesOf(near.id))).toMatchObject({ acceptable: { limit: '20', within: true } })
  expect(pointsOf(await read(lab, near.id), 'odd')).toEqual([])
})

it('tests of another content are no replicates, nor are those that the method makes each its own way', async () => {
  const { id } = await makeDesign(testApp, lab)
  await stirred(id, stirring.key, ['170', '171'])
  await stirred(id, stirring.key, ['140', '142'], '14')
  await stirred(id, apart.key, ['100', '200'])
  const { groups, apart: named } = await replicatesOf(id)
  expect(groups.map(({ results }) => results.map(({ value }) => value))).toEqual([
    ['170', '171'],
    ['140', '142'],
  ])
  expect(named).toEqual([{ methodName: 'Made-up apart', why: 'each is warmer' }])
})

it('of a series each mean of two or more, by its curve; no repeatability is made up', async () => {
  const { design } = await makeTestedDesign(testApp, lab)
  const { groups } = await replicatesOf(design.id)
  // Two discs at each of three contents; of one strip there is no scatter.
  expect(groups.map(({ emulsionPercent, n, methodKey }) => [emulsionPercent, n, methodKey])).toEqual(
    ['10', '12', '14'].map((content) => [content, 2, 'wet-track-abrasion-1h']),
  )
  const { curves } = (
    await lab
      .as('auditor')
      .get(lab.path(`/designs/${design.id}/range`))
      .expect(200)
  ).body
  const { mixId, key } = { ...curves[0].means[0], key: curves[0].key }
  expect(groups[0]).toMatchObject({
    ...{ place: 'series', curve: { key, mixId }, range: curves[0].means[0].range, mean: curves[0].means[0].y },
    ...{ noRepeatability: 'none-published', acceptable: null, untested: 'too-few' },
  })
})
