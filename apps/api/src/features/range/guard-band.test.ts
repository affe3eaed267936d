import { afterAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { makeTestedDesign, recommend } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

const testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
afterAll(() => testApp.close())

const source = 'Contract 7, clause 4'
/** At most 538 g/m², accepted up to 538 − 38 = 500. */
const guarded = (property: string, soak: string | null) => ({
  key: property,
  property,
  label: property === 'abrasion-loss' ? 'Abrasion loss' : 'Sand adhesion',
  soak,
  sense: 'max',
  value: '538',
  unit: 'g/m²',
  rounding: 'none',
  decisionRule: 'guard band',
  uncertainty: { expanded: '38', coverageFactor: '2', source: 'own budget' },
  source,
  certainty: 'by contract',
})

it('under a guard band the range ends at the acceptance limits, and its panel passes what the range names', async () => {
  const lab = await makeLaboratory(testApp)
  const { design } = await makeTestedDesign(testApp, lab)
  const engineer = lab.as('engineer')
  const specification = await engineer
    .post(lab.path('/specifications/own'))
    .send({
      id: newId(),
      name: 'Guarded',
      source,
      aggregateType: 'Type II',
      traffic: 'heavy',
      residualBand: { from: '5.5', to: '10.5', source, certainty: 'by contract' },
      limits: [guarded('abrasion-loss', '1-hour'), guarded('sand-adhesion', null)],
    })
    .expect(201)
  const path = lab.path(`/designs/${design.id}`)
  const { version } = (await engineer.get(path).expect(200)).body
  await engineer
    .patch(path)
    .set('if-match', `"${version}"`)
    .send({ specificationId: specification.body.id })
    .expect(200)

  const view = (await engineer.get(`${path}/range`).expect(200)).body
  // The means of range.test.ts: abrasion 651.42 and 388.22 at 6.26 and 7.512 %, adhesion 409.59 and 704.79 at 7.512 and 8.764 %.
  const minimum = 6.26 + ((651.42 - 500) / (651.42 - 388.22)) * 1.252
  const maximum = 7.512 + ((500 - 409.59) / (704.79 - 409.59)) * 1.252
  expect(Number(view.minimum.residualPercent)).toBeCloseTo(minimum, 10)
  expect(Number(view.maximum.residualPercent)).toBeCloseTo(maximum, 10)
  expect(Number(view.midpoint.residualPercent)).toBeCloseTo((minimum + maximum) / 2, 10)
  expect(view.sentence).toContain('with their guard bands')
  expect(view.minimum.sentence).toContain('at its acceptance limit, 500 g/m²')
  expect(view.comparison).toContain('500 g/m², in place of the limit, 538 g/m² (guard band of U = 38 g/m²')
  expect(view.curves[0].limit).toMatchObject({
    value: '500',
    label: 'Abrasion loss, acceptance limit',
    guarded: { held: '538', rule: expect.stringContaining('guard band of U = 38 g/m²') },
  })

  // 12 % lies inside; its means, 388.22 and 409.59, are accepted.
  await recommend(testApp, lab, design.id)
  const { panel } = (await engineer.get(`${path}/range`).expect(200)).body
  expect(panel.map(({ verdict }: { verdict: string }) => verdict)).toEqual(['pass', 'pass'])
})
