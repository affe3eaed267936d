import { expect, test } from 'vitest'
import { acceptableRange } from '../design/acceptable-range.ts'
import { curveValueAt } from '../design/curve-value.ts'
import type { CurveInput } from '../design/curve.ts'
import { curveLimitOf } from './curve-limit.ts'
import { judge } from './judge.ts'
import type { DecisionRule, Limit } from './specification.ts'

const U = { expanded: '20', coverageFactor: '2', source: 'own budget' }
const limit = (more: Partial<Limit> = {}): Limit => ({
  key: 'loss',
  property: 'abrasion-loss',
  label: 'Abrasion loss',
  soak: null,
  traffic: null,
  sense: 'max',
  value: '538',
  unit: 'g/m²',
  usValue: null,
  usUnit: null,
  rounding: 'none',
  decisionRule: 'simple acceptance',
  source: 'contract',
  certainty: 'by contract',
  alsoPublished: [],
  condition: null,
  changedFrom: null,
  changeReason: null,
  ...more,
})
/** Single results at 6, 7 and 8 % residual binder; the emulsion content is twice that at a residue of 50 %. */
const curve = (own: Limit, bears: CurveInput['bears'], results: readonly string[]): CurveInput => ({
  key: own.key,
  label: own.label,
  property: own.property,
  soak: null,
  bears,
  unit: own.unit,
  limit: curveLimitOf(own),
  points: results.map((y, index) => ({
    testId: `${own.key}-${index}`,
    resultId: `result-${own.key}-${index}`,
    code: '',
    label: `${6 + index}-1`,
    mixId: String(6 + index),
    emulsionPercent: String(12 + 2 * index),
    x: String(6 + index),
    y,
    flags: [],
  })),
})
const decided = (decisionRule: DecisionRule) => {
  const uncertainty = decisionRule === 'simple acceptance' ? null : U
  const loss = limit({ decisionRule, uncertainty })
  const sand = limit({ key: 'sand', property: 'sand-adhesion', label: 'Sand adhesion', decisionRule, uncertainty })
  const range = acceptableRange({
    curves: [curve(loss, 'minimum', ['738', '438', '238']), curve(sand, 'maximum', ['238', '438', '638'])],
    band: { from: '5.5', to: '10.5', source: 'guideline' },
    residuePercent: '50',
  })
  return { loss, range }
}

test('under a guard band the ends lie where the line meets the acceptance limits, and the panel passes them', () => {
  // 738 to 438 over 1 %: 518 = 538 − 20 at 6 + 220/300; 438 to 638: 518 at 7.4.
  const { loss, range } = decided('guard band')
  expect(range.ends.minimum.value?.slice(0, 8)).toBe('6.733333')
  expect(range.ends.maximum.value).toBe('7.4')
  expect(range.midpoint?.value.slice(0, 8)).toBe('7.066666')
  const at = (residualPercent: string) =>
    judge(loss, curveValueAt(range.curves[0]!, { emulsionPercent: '0', residualPercent })!).verdict
  expect(at('6.7334')).toBe('pass')
  expect(at('6.7332')).toBe('fail')
  expect(range.sentence).toContain('meet the limits tested with their guard bands.')
  expect(range.ends.minimum.sentence).toContain('set by abrasion loss at its acceptance limit, 518 g/m².')
  expect(range.ends.minimum.calculation?.lines.find(({ symbol }) => symbol === 'L')).toMatchObject({
    name: 'Abrasion loss, acceptance limit',
    value: '518',
  })
  expect(range.comparison).toContain(
    'Abrasion loss: compared with the acceptance limit, 518 g/m², in place of the limit, 538 g/m² (guard band of U = 20 g/m², k = 2 (own budget; ILAC-G8:09/2019)).',
  )
})

test('simple acceptance and the non-binary rule cross the limit itself', () => {
  for (const rule of ['simple acceptance', 'non-binary'] as const) {
    const { range } = decided(rule)
    expect(range.ends.minimum.value?.slice(0, 8)).toBe('6.666666')
    expect(range.ends.maximum.value).toBe('7.5')
    expect(range.sentence).toMatch(/meet the limits tested\.$/)
    expect(range.ends.minimum.sentence).toMatch(/set by abrasion loss\.$/)
  }
  expect(decided('simple acceptance').range.comparison).not.toContain('Abrasion loss')
  expect(decided('non-binary').range.comparison).toContain(
    'Abrasion loss: compared with the limit itself, and a conditional pass or fail within U of it (non-binary rule',
  )
})

test('a series of which nothing is accepted names the acceptance limit', () => {
  const own = limit({ decisionRule: 'guard band', uncertainty: U })
  const { flags, ends } = acceptableRange({
    curves: [curve(own, 'minimum', ['738', '638', '528'])],
    band: { from: '5.5', to: '10.5', source: 'guideline' },
    residuePercent: null,
  })
  expect(ends.minimum.sentence).toContain('no tested content meets the acceptance limit of abrasion loss.')
  expect(flags[0]?.sentence).toContain('No tested content meets the acceptance limit of abrasion loss, and the band')
})

test('what a line cannot cross sets no end', () => {
  expect(curveLimitOf(limit({ value: null }))).toBeNull()
  expect(curveLimitOf(limit({ sense: 'between', upper: '600' }))).toBeNull()
  expect(curveLimitOf(limit({ decisionRule: 'guard band', uncertainty: null }))).toBeNull()
  expect(curveLimitOf(limit({ sense: 'min', decisionRule: 'guard band', uncertainty: U }))).toMatchObject({
    value: '558',
    decision: { rule: 'guard band', held: '538' },
  })
})
