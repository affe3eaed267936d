import { checkCalculation } from '@curebook/trade/procedure/calculation-checker'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { timeNow } from '../../../../../tests/support/factories/bench.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import {
  makeTestedDesign,
  oneDisc,
  recommend,
  runToTheEnd,
  usualWeighings,
  weighBatches,
} from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const read = async (lab: TestLaboratory, designId: string) =>
  (
    await lab
      .as('technician')
      .get(lab.path(`/designs/${designId}/range`))
      .expect(200)
  ).body
const curveOf = (view: Awaited<ReturnType<typeof read>>, key: string) =>
  view.curves.find((curve: { key: string }) => curve.key === key)

describe('the acceptable range of a tested design', () => {
  it('stands between the crossings as a hand calculation gives them, and is judged at the recommended content only', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab)
    const view = await read(lab, design.id)

    // Means of loss × 32.9 g/m² per g at 6.26 and 7.512 %: 651.42 and 388.22; the line meets 538 in between.
    const minimum = 6.26 + ((651.42 - 538) / (651.42 - 388.22)) * 1.252
    // Means of gain × 73.8 at 7.512 and 8.764 %: 409.59 and 704.79.
    const maximum = 7.512 + ((538 - 409.59) / (704.79 - 409.59)) * 1.252
    expect(view.minimum.kind).toBe('crossing')
    expect(Number(view.minimum.residualPercent)).toBeCloseTo(minimum, 10)
    expect(Number(view.minimum.emulsionPercent)).toBeCloseTo(minimum / 0.626, 10)
    expect(view.maximum.kind).toBe('crossing')
    expect(Number(view.maximum.residualPercent)).toBeCloseTo(maximum, 10)
    expect(view.minimum.calculation.lines.length).toBeGreaterThan(0)
    expect(view.basis).toBe('% of dry aggregate')
    expect(view.comparison).toContain('compared with the limit unrounded, in the limit’s own unit')

    const adhesion = curveOf(view, 'sand-adhesion')
    expect(adhesion.points).toHaveLength(3)
    expect(adhesion.unit).toBe('g/m²')
    expect(curveOf(view, 'abrasion-loss-1-hour').means.map(({ n }: { n: number }) => n)).toEqual([2, 2, 2])

    // The 6-day soak is not tested: no midpoint, and nothing reads as passing.
    expect(view.midpoint).toBeNull()
    expect(view.panel).toHaveLength(18)
    const verdicts = Object.fromEntries(
      view.panel.map(({ key, verdict }: { key: string; verdict: string }) => [key, verdict]),
    )
    expect(verdicts).toMatchObject({
      'abrasion-loss-1-hour': 'undecided',
      'sand-adhesion': 'undecided',
      'abrasion-loss-6-day': 'not tested',
      'mix-time': 'not tested',
    })
    expect(Object.entries(verdicts).filter(([, verdict]) => verdict === 'pass')).toEqual([['emulsion-residue', 'pass']])
    expect(view.overall).toContain('The panel is not complete.')
    expect(view.flags.map(({ key }: { key: string }) => key)).toContain('missing-method')

    await recommend(testApp, lab, design.id)
    const { panel, overall } = await read(lab, design.id)
    expect(panel.find(({ key }: { key: string }) => key === 'abrasion-loss-1-hour')).toMatchObject({
      verdict: 'pass',
      unit: 'g/m²',
      n: 2,
    })
    expect(Number(panel.find(({ key }: { key: string }) => key === 'abrasion-loss-1-hour').value)).toBeCloseTo(
      388.22,
      10,
    )
    // Every value judged opens its working, from results to the digits judged.
    const held = panel.find(({ key }: { key: string }) => key === 'emulsion-residue')
    expect(held).toMatchObject({ verdict: 'pass', sentence: expect.stringContaining('Entered, not computed here.') })
    const judged = panel.filter((row: { value: string | null }) => row.value !== null && row !== held)
    expect(judged).toHaveLength(2)
    for (const { value, calculation } of judged) expect(checkCalculation(calculation, value)).toEqual([])
    expect(panel.filter(({ verdict }: { verdict: string }) => verdict === 'not tested')).toHaveLength(15)
    expect(overall).toContain('not complete')
  })

  it('places points by the content as weighed, not by the target', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
    const disc = specimens.find(({ label, methodKey }) => label === '12-1' && methodKey === 'wet-track-abrasion-1h')!
    const { readings } = await testApp.services.bench.view.one(lab.people.technician.actor, disc.batchTestId)
    const emulsion = readings.find(({ key }) => key === 'emulsion')!
    await testApp.services.bench.readings.correct(lab.people.technician.actor, emulsion.id, {
      id: newId(),
      typed: '98.0',
      reason: 'misread',
      time: timeNow(testApp),
    })
    const point = curveOf(await read(lab, design.id), 'abrasion-loss-1-hour').points.find(
      ({ testId }: { testId: string }) => testId === disc.testId,
    )
    // 98.0 ÷ 800 × 62.6 %
    expect(Number(point.x)).toBeCloseTo(7.6685, 10)
    expect(point.emulsionPercent).toBe('12')
    expect(point.flags).toContain('reading corrected')
  })

  it('leaves void specimens out and takes the spare in their place, named', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens, machineId } = await makeTestedDesign(testApp, lab, {
      weighings: oneDisc,
      spares: [{ emulsionPercent: '12', count: 1 }],
    })
    const technician = lab.people.technician.actor
    const disc = specimens.find(({ label, methodKey }) => label === '12-1' && methodKey === 'wet-track-abrasion-1h')!
    const spare = specimens.find(({ purpose }) => purpose === 'spare')!
    await weighBatches(testApp, lab, [spare])
    await runToTheEnd(testApp, lab, [spare], { instrumentId: machineId, weighed: () => ['760.0', '748.0'] })
    const before = curveOf(await read(lab, design.id), 'abrasion-loss-1-hour')
    expect(before.points).toHaveLength(1)
    expect(before.excluded).toMatchObject([{ testId: spare.testId, kind: 'unused-spare', reason: '', by: null }])
    await testApp.services.bench.ending.void(technician, disc.testId, {
      id: newId(),
      reason: 'Felt tore',
      time: timeNow(testApp),
    })
    expect(curveOf(await read(lab, design.id), 'abrasion-loss-1-hour').points).toHaveLength(0)
    await testApp.services.bench.ending.replace(technician, disc.testId, {
      spareTestId: spare.testId,
      reason: 'Felt tore',
    })
    const { points, means, excluded, meansWithExcluded } = curveOf(await read(lab, design.id), 'abrasion-loss-1-hour')
    // The void result is kept in view with reason and person; both means can be seen, and one alone counts.
    expect(excluded).toMatchObject([
      { testId: disc.testId, kind: 'void', reason: 'Felt tore', by: 'Person technician', emulsionPercent: '12' },
    ])
    expect(means).toMatchObject([{ y: points[0].y, n: 1 }])
    expect(meansWithExcluded).toMatchObject([{ counting: { y: points[0].y, n: 1 }, withExcluded: { n: 2 } }])
    expect(checkCalculation(meansWithExcluded[0].calculation, meansWithExcluded[0].withExcluded.y)).toEqual([])
    expect(points).toHaveLength(1)
    expect(points.find(({ testId }: { testId: string }) => testId === spare.testId).flags).toEqual([
      'spare in place of 12-1',
    ])
  })

  it('says of a series whose every loss is over the limit that it has to be extended, and guesses no end', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, {
      weighings: { 'wet-track-abrasion-1h': { '10': [['760.0', '735.0']], '12': [['760.0', '738.0']] } },
    })
    const view = await read(lab, design.id)
    expect(view.minimum.kind).toBe('none')
    expect(view.flags.map(({ key }: { key: string }) => key)).toContain('extend-series')
    expect(view.midpoint).toBeNull()
  })

  it('says of a single content whether it meets the limits, and draws no range', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makeTestedDesign(testApp, lab, {
      weighings: { 'wet-track-abrasion-1h': { '12': usualWeighings['wet-track-abrasion-1h']!['12']! } },
    })
    const view = await read(lab, design.id)
    expect(view.flags.map(({ key }: { key: string }) => key)).toContain('one-content')
    expect([view.minimum.kind, view.maximum.kind]).toEqual(['none', 'none'])
    expect(view.panel.find(({ key }: { key: string }) => key === 'abrasion-loss-1-hour').verdict).toBe('pass')
  })

  it('shows a design without any test as nothing tested', async () => {
    const lab = await makeLaboratory(testApp)
    const { design } = await makePlannedDesign(testApp, lab)
    const view = await read(lab, design.id)
    expect(view.flags[0].key).toBe('nothing-tested')
    // The residue is entered with the design, and its limit is the one that can be judged before anything is tested.
    const tested = view.panel.filter(({ verdict }: { verdict: string }) => verdict !== 'not tested')
    expect(tested.map(({ key }: { key: string }) => key)).toEqual(['emulsion-residue'])
    expect(view.enterable.map(({ key }: { key: string }) => key)).not.toContain('emulsion-residue')
  })
})
