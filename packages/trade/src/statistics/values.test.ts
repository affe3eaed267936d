import fc from 'fast-check'
import { expect, test } from 'vitest'
import { coefficientOfVariation } from './coefficient-of-variation.ts'
import { dixonTest } from './dixon.ts'
import { grubbsTest } from './grubbs.ts'
import { algorithmA } from './algorithm-a.ts'
import { autocorrelation } from './autocorrelation.ts'
import { mean } from './mean.ts'
import { individualsChart } from './individuals-chart.ts'
import { fitLine } from './line.ts'
import { percentWithinLimits } from './percent-within-limits.ts'
import { pooledScatter } from './pooled-scatter.ts'
import { range } from './range.ts'
import { replicateSummary } from './replicate-summary.ts'
import { standardDeviation } from './standard-deviation.ts'
import { doubleDigits, percentWords, valueOf } from './values.ts'

test('only digits that an instrument can show are numbers', () => {
  for (const text of ['', ' 1', '1,5', 'NaN', 'Infinity', '0x1F', '1e400', '1e', '--1', '1 000'])
    expect(() => valueOf(text)).toThrow(expect.objectContaining({ name: 'MethodInputError', code: 'inconsistent' }))
  for (const text of ['0', '-3.10', '.5', '5.', '1e-7', '+812.4']) expect(valueOf(text).isFinite()).toBe(true)
})

test('a double is written with the fewest digits that are it, without exponent', () => {
  expect(doubleDigits(0.1)).toBe('0.1')
  expect(doubleDigits(1e-7)).toBe('0.0000001')
  expect(doubleDigits(2.771807648699364)).toBe('2.771807648699364')
  expect(percentWords(0.005)).toBe('0.5 %')
})

test('whatever is typed, each function gives digits or a typed refusal', () => {
  const typed = fc.oneof(
    fc.string({ maxLength: 6 }),
    fc.constantFrom('NaN', '-0', '0', '1e99', '1e-99', '5', '5.0', '1e101'),
    fc.double({ noDefaultInfinity: true, noNaN: true }).map(String),
  )
  const functions = [
    (values: readonly string[]) => mean(values).toFixed(),
    (values: readonly string[]) => range(values).toFixed(),
    (values: readonly string[]) => standardDeviation(values).toFixed(),
    coefficientOfVariation,
    autocorrelation,
    (values: readonly string[]) => algorithmA(values).standardDeviation,
    (values: readonly string[]) => individualsChart(values, 'mean').individuals.upper,
    (values: readonly string[]) => fitLine(values.map((y, index) => ({ x: String(index), y }))).slope.standardError,
    (values: readonly string[]) => pooledScatter([values], 'relative').value,
    (values: readonly string[]) => replicateSummary(values).range,
    (values: readonly string[]) => grubbsTest(values, 'two-sided', 0.05).statistic,
    (values: readonly string[]) => dixonTest(values, 'high', 0.05).statistic,
    (values: readonly string[]) => percentWithinLimits(values, { upper: '5' }, 'exact beta').percentWithin,
  ]
  fc.assert(
    fc.property(fc.array(typed, { maxLength: 6 }), fc.constantFrom(...functions), (values, compute) => {
      try {
        expect(compute(values)).toMatch(/^-?\d+(\.\d+)?$/)
      } catch (error) {
        expect(error).toMatchObject({ name: 'MethodInputError' })
      }
    }),
    { numRuns: 500 },
  )
})
