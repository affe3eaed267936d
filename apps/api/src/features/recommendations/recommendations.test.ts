import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import {
  aRecommendation,
  makeTestedDesign,
  oneDisc,
  recommend,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

/** Two contents whose richer one lies beyond the band's 10.5 % residual: 12 % is 7.512 %, 18 % is 11.268 %. */
const beyondBand = { 'wet-track-abrasion-1h': { '12': [['762.0', '750.0']], '18': [['762.0', '757.0']] } } as const

describe('a recommended content', () => {
  it('is kept inside tested contents and band, and refused outside of either', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: beyondBand })
    const post = (emulsionPercent: string) =>
      lab
        .as('engineer')
        .post(lab.path(`/designs/${design.id}/recommendations`))
        .send(aRecommendation({ emulsionPercent }))

    const lean = await post('10').expect(422)
    expect(lean.body.errors[0]).toMatchObject({ path: 'emulsionPercent' })
    expect(lean.body.errors[0].message).toContain('outside the contents tested')
    expect((await post('18.5').expect(422)).body.detail).toContain('outside the contents tested')
    const rich = await post('17').expect(422)
    expect(rich.body.detail).toContain('outside the band of the specification')

    const kept = await post('13').expect(201)
    expect(Number(kept.body.residualPercent)).toBeCloseTo(8.138, 10)
    const read = await lab
      .as('technician')
      .get(lab.path(`/designs/${design.id}/recommendation`))
      .expect(200)
    expect(read.body.recommendation).toMatchObject({
      id: kept.body.id,
      emulsionPercent: '13',
      water: { from: '8', to: '12' },
      reason: 'Both limits are met with room to either side',
    })
  })

  it('is refused while nothing is tested, and while the residue is not entered', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makePlannedDesign(testApp, lab)
    const untested = await lab
      .as('engineer')
      .post(lab.path(`/designs/${design.id}/recommendations`))
      .send(aRecommendation())
      .expect(422)
    expect(untested.body.detail).toContain('nothing can be recommended yet')
    const { id } = await makeDesign(testApp, lab, { residue: null })
    const placeless = await lab
      .as('engineer')
      .post(lab.path(`/designs/${id}/recommendations`))
      .send(aRecommendation())
      .expect(400)
    expect(placeless.body.errors[0].path).toBe('emulsionPercent')
  })

  it('is refused with a range that ends below its beginning, and without a reason', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const path = lab.path(`/designs/${design.id}/recommendations`)
    const reversed = await lab
      .as('engineer')
      .post(path)
      .send(aRecommendation({ water: { from: '12', to: '8' } }))
      .expect(400)
    expect(reversed.body.errors[0].path).toBe('water.to')
    const silent = await lab
      .as('engineer')
      .post(path)
      .send(aRecommendation({ reason: ' ' }))
      .expect(400)
    expect(silent.body.errors[0].path).toBe('reason')
  })

  it('is superseded by another that names it with a reason, and puts the revision into review', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const engineer = lab.people.engineer.actor
    const first = await recommend(testApp, lab, design.id)
    expect((await testApp.services.designs.read(engineer, design.id)).state).toBe('in-review')

    const again = await lab
      .as('engineer2')
      .post(lab.path(`/designs/${design.id}/recommendations`))
      .send(aRecommendation({ toleranceResidualPercent: '0.3' }))
      .expect(409)
    expect(again.body.stored.id).toBe(first.id)
    const second = await recommend(testApp, lab, design.id, {
      toleranceResidualPercent: '0.3',
      supersedes: { id: first.id, reason: 'Plant holds 0.3 %' },
    })
    const { recommendation } = await testApp.services.recommendations.read(engineer, design.id)
    expect(recommendation).toMatchObject({ id: second.id, toleranceResidualPercent: '0.3' })
    await expect(
      recommend(testApp, lab, design.id, { supersedes: { id: first.id, reason: 'Late' } }),
    ).rejects.toMatchObject({ code: 'conflict' })
  })

  it('is the same thing again for the same message, and a conflict for another under its id', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const path = lab.path(`/designs/${design.id}/recommendations`)
    const input = aRecommendation()
    await lab.as('engineer').post(path).send(input).expect(201)
    await lab.as('engineer').post(path).send(input).expect(200)
    await lab
      .as('engineer')
      .post(path)
      .send({ ...input, reason: 'Another reason' })
      .expect(409)
  })

  it('stands once when two engineers recommend at the same moment', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const another = await testApp.startAnother()
    try {
      const path = lab.path(`/designs/${design.id}/recommendations`)
      const answers = await Promise.all([
        lab.as('engineer').post(path).send(aRecommendation()),
        lab
          .as('engineer2', another.url)
          .post(path)
          .send(aRecommendation({ toleranceResidualPercent: '0.3' })),
      ])
      expect(answers.map(({ status }) => status).sort()).toEqual([201, 409])
      const stored = answers.find(({ status }) => status === 201)!.body
      const { body } = await lab.as('engineer').get(path.replace(/s$/, '')).expect(200)
      expect(body.recommendation.id).toBe(stored.id)
      expect(answers.find(({ status }) => status === 409)!.body.stored.id).toBe(stored.id)
    } finally {
      await another.close()
    }
  })

  it('is the engineer’s alone, of a design that is there', async () => {
    const lab = await makeLaboratory(testApp)
    await lab
      .as('manager')
      .post(lab.path(`/designs/${newId()}/recommendations`))
      .send(aRecommendation())
      .expect(403)
    await lab
      .as('engineer')
      .post(lab.path(`/designs/${newId()}/recommendations`))
      .send(aRecommendation())
      .expect(404)
  })
})
