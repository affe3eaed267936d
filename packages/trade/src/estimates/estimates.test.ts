import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import { decimal } from '../quantity/decimal.ts'
import { round } from '../quantity/rounding.ts'
import { emulsionByFractions } from './emulsion-by-fractions.ts'
import { type EstimateInput, passingOf } from './estimate.ts'
import { estimatesOf } from './estimates.ts'
import { surfaceAreaEstimate, surfaceAreaFactors } from './surface-area.ts'

const sizes = surfaceAreaFactors.map(({ size }) => size)
const sievesOf = (passing: readonly (string | number)[]) =>
  passing.map((value, index) => ({ size: sizes[index]!, passing: String(value) }))
const given = (value: string) => ({ value, source: 'test' })
/** Constructed, worked by hand: 49.38 ft²/lb in all. */
const worked: EstimateInput = {
  sieves: sievesOf([100, 95, 78, 57, 40, 24, 15, 10]),
  gradation: { source: 'test' },
  apparentGravity: given('2.96'),
  binderGravity: given('1.02'),
  absorption: given('2.2'),
  residue: given('62'),
}
const valuesOf = (system: 'us' | 'si', input: EstimateInput) =>
  surfaceAreaEstimate(input, system).contents.map(({ key, value }) => [key, round(value, 3, 'half-even')])
const refused = (code: string, text?: string) =>
  expect.objectContaining({ code, ...(text ? { message: expect.stringContaining(text) as string } : {}) }) as Error

describe('surface area', () => {
  test('49.38 ft²/lb, gravity 2.96, 8 µm, binder 1.02, absorption 2.2: 9.584 %, emulsion 15.46 % at 62 % residue', () => {
    const { contents } = surfaceAreaEstimate(worked, 'us')
    const lines = contents[1]!.calculation.lines
    expect(lines.find(({ symbol }) => symbol === 'SA')).toMatchObject({ value: '49.38', unit: 'ft²/lb' })
    expect(valuesOf('us', worked)).toEqual([
      ['residual-binder', '9.584'],
      ['emulsion', '15.459'],
    ])
    for (const { calculation, value } of contents) expect(checkCalculation(calculation, value)).toEqual([])
  })

  test('both paths agree on any gradation: the metric constant is not the misprinted one', () => {
    const gradations = fc
      .array(fc.integer({ min: 1, max: 100 }), { minLength: 8, maxLength: 8 })
      .map((passing) => sievesOf(passing.toSorted((a, b) => b - a)))
    fc.assert(
      fc.property(gradations, fc.integer({ min: 220, max: 320 }), (sieves, gravity) => {
        const input = { ...worked, sieves, apparentGravity: given((gravity / 100).toFixed(2)), absorption: given('0') }
        const [us, si] = (['us', 'si'] as const).map((system) =>
          decimal(surfaceAreaEstimate(input, system).contents[0]!.value),
        )
        // The metric factors are cut to five decimals: 0.15 % at most, on the widest sieve.
        expect(si!.div(us!).minus(1).abs().lt('0.002')).toBe(true)
      }),
    )
    for (const { calculation } of surfaceAreaEstimate(worked, 'si').contents)
      for (const { value } of calculation.lines) expect(value).not.toBe('0.99941')
  })

  test('1 % of cement that is not in the gradation takes 0.6 % more binder', () => {
    const [without, once, twice] = [undefined, '1', '2'].map((extra) => {
      const input = extra === undefined ? worked : { ...worked, extraFiller: given(extra) }
      return decimal(surfaceAreaEstimate(input, 'us').contents[0]!.value)
    })
    expect(once!.minus(without!).toFixed(6)).toBe('0.600000')
    expect(twice!.minus(without!).toFixed(6)).toBe('1.200000')
  })

  test('what the method says for itself stands in the working: 8 µm, and 1.0 for a gravity that is not known', () => {
    const { binderGravity: _, residue: __, ...rest } = worked
    const { contents, remarks } = surfaceAreaEstimate(rest, 'us')
    const line = (symbol: string) => contents[0]!.calculation.lines.find((one) => one.symbol === symbol)
    expect(line('t')).toMatchObject({ value: '8', unit: 'µm' })
    expect(line('SGA')).toMatchObject({ value: '1.0' })
    expect(contents).toHaveLength(1)
    expect(remarks.join(' ')).toMatch(/too thick for heavy traffic.*taken as 1\.0.*Without a residue/)
  })

  test('neither gravity nor absorption is taken for granted, and what cannot be is refused', () => {
    const { apparentGravity: _, ...noGravity } = worked
    const { absorption: __, ...noAbsorption } = worked
    expect(() => surfaceAreaEstimate(noGravity, 'us')).toThrow(refused('missing-setup', 'apparent specific gravity'))
    expect(() => surfaceAreaEstimate(noAbsorption, 'si')).toThrow(refused('missing-setup', 'kerosene'))
    const wrong = (more: Partial<EstimateInput>) => () => surfaceAreaEstimate({ ...worked, ...more }, 'us')
    expect(wrong({ apparentGravity: given('0') })).toThrow(refused('not-positive', 'more than 0'))
    expect(wrong({ absorption: given('-0.1') })).toThrow(refused('not-positive', 'at least 0'))
    expect(wrong({ filmMicrons: given('0') })).toThrow(refused('not-positive'))
    expect(wrong({ residue: given('101') })).toThrow(refused('inconsistent'))
  })
})

describe('three fractions', () => {
  test('22 % coarse, 68 % middle and 10 % fine take 12.9 % of emulsion, 8.00 % of binder at 62 %', () => {
    // 0.05 × 22 + 0.1 × 68 + 0.5 × 10 = 1.1 + 6.8 + 5
    const { contents, certainty } = emulsionByFractions(worked)
    expect(contents.map(({ key, value }) => [key, value])).toEqual([
      ['residual-binder', '7.998'],
      ['emulsion', '12.9'],
    ])
    expect(certainty).toBe('from memory')
    for (const { calculation, value } of contents) expect(checkCalculation(calculation, value)).toEqual([])
  })
})

describe('sieves', () => {
  test('what is not sieved is taken by arithmetic alone, and never read between two sieves', () => {
    const sieves = [
      { size: '4.75', passing: '100' },
      { size: '2.36', passing: '80' },
      { size: '0.6', passing: '0' },
    ]
    expect(passingOf(sieves, ['9.5', '4.75', '2.36', '0.600', '0.075'])).toEqual(['100', '100', '80', '0', '0'])
    expect(() => passingOf(sieves, ['1.18', '1.0'])).toThrow(refused('missing-setup', 'no sieve of 1.18, 1.0 mm'))
  })

  test('each estimate is refused by itself: with two sieves only the three fractions are there', () => {
    const sieves = [
      { size: '2.36', passing: '78' },
      { size: '0.075', passing: '10' },
    ]
    const outcomes = estimatesOf({ ...worked, sieves })
    expect(outcomes.map(({ key, refusal, contents }) => [key, refusal?.code ?? null, contents.length])).toEqual([
      ['surface-area-us', 'missing-setup', 0],
      ['surface-area-si', 'missing-setup', 0],
      ['emulsion-by-fractions', null, 2],
    ])
    for (const { refusal, source } of estimatesOf({ ...worked, sieves: [] }))
      expect([refusal?.text, source]).toEqual([expect.stringContaining('in a file alone'), expect.stringMatching(/./)])
  })
})
