import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dixonCritical, dixonRatioOf, dixonUpperTail } from './dixon-critical.ts'
import { dixonTest } from './dixon.ts'
import { grubbsCritical, grubbsTest } from './grubbs.ts'

test('of three results Dixon’s ratio is known in closed form, and so is its critical value', () => {
  const closed = (share: number) => (Math.sqrt(3) * Math.tan(Math.PI / 6 - (share * Math.PI) / 3) + 1) / 2
  for (const share of [0.1, 0.05, 0.01, 0.001]) {
    expect(Math.abs(dixonCritical(3, share, 'one-sided') - closed(share))).toBeLessThan(1e-9)
    expect(Math.abs(dixonUpperTail(closed(share), 3, 'r10') - share)).toBeLessThan(1e-9)
  }
})

test('the ratio goes with the number of results', () => {
  expect([3, 7, 8, 10, 11, 13, 14, 30].map(dixonRatioOf)).toEqual([
    'r10',
    'r10',
    'r11',
    'r11',
    'r21',
    'r21',
    'r22',
    'r22',
  ])
  const values = (n: number) => Array.from({ length: n }, (_, index) => String(index * index))
  // x² for x = 0 … n − 1: the ratios by hand.
  expect(Number(dixonTest(values(5), 'high', 0.05).statistic)).toBeCloseTo((16 - 9) / 16, 12)
  expect(Number(dixonTest(values(8), 'high', 0.05).statistic)).toBeCloseTo((49 - 36) / (49 - 1), 12)
  expect(Number(dixonTest(values(11), 'high', 0.05).statistic)).toBeCloseTo((100 - 64) / (100 - 1), 12)
  expect(Number(dixonTest(values(14), 'high', 0.05).statistic)).toBeCloseTo((169 - 121) / (169 - 4), 12)
  expect(Number(dixonTest(values(14), 'low', 0.05).statistic)).toBeCloseTo(4 / 121, 12)
})

test('an outlier is a finding: the sentence keeps the result and asks for a cause', () => {
  const values = ['229.2', '238.0', '231.5', '301.4', '234.4']
  const found = grubbsTest(values, 'high', 0.05)
  expect(found).toMatchObject({ exceeds: true, suspect: { index: 3, value: '301.4' } })
  expect(found.sentence).toBe(
    '301.4 lies further out than chance explains (Grubbs test, one-sided, 5 %). It stays until a cause is found and recorded.',
  )
  expect(dixonTest(values, 'two-sided', 0.01)).toMatchObject({ exceeds: true, ratio: 'r10', suspect: { index: 3 } })
  expect(values).toHaveLength(5)
})

test('each side looks at its own end; of two ends equally far out the high one is named', () => {
  expect(grubbsTest(['1', '5', '6', '7', '7.5'], 'low', 0.05).suspect?.value).toBe('1')
  expect(grubbsTest(['1', '5', '6', '7', '7.5'], 'high', 0.05).suspect?.value).toBe('7.5')
  expect(grubbsTest(['0', '5', '10'], 'two-sided', 0.05).suspect?.value).toBe('10')
  expect(dixonTest(['0', '5', '10'], 'two-sided', 0.05).suspect?.value).toBe('10')
})

test('results that are all the same hold no suspect', () => {
  const same = ['4.2', '4.2', '4.20', '4.2']
  expect(grubbsTest(same, 'two-sided', 0.05)).toMatchObject({ suspect: null, statistic: '0', exceeds: false })
  expect(dixonTest(same, 'high', 0.05)).toMatchObject({ suspect: null, statistic: '0', exceeds: false })
})

test('too few, too many, no significance: refused', () => {
  expect(() => grubbsTest(['1', '2'], 'high', 0.05)).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() => dixonTest(['1', '2'], 'high', 0.05)).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() => dixonTest(Array<string>(31).fill('1'), 'high', 0.05)).toThrow(
    expect.objectContaining({ code: 'inconsistent' }),
  )
  expect(() => grubbsCritical(8, 0, 'one-sided')).toThrow(expect.objectContaining({ code: 'inconsistent' }))
  expect(() => dixonCritical(4, 0.05, 'one-sided', 'r22')).toThrow(expect.objectContaining({ code: 'inconsistent' }))
})

test('drawn by lot, as many exceed the critical value as its significance says, for each ratio', () => {
  // A fixed sequence (xorshift, Marsaglia 2003), so that the test says the same each time; normal by Box and Muller.
  let state = 20_261_128
  const uniform = () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return ((state >>> 0) + 0.5) / 2 ** 32
  }
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
  const draws = 20_000
  for (const [n, above, from] of [
    [6, 1, 1],
    [9, 1, 2],
    [12, 2, 2],
    [20, 2, 3],
  ] as const) {
    const critical = dixonCritical(n, 0.05, 'one-sided')
    let beyond = 0
    for (let draw = 0; draw < draws; draw += 1) {
      const x = Array.from({ length: n }, normal).sort((a, b) => a - b)
      if ((x[n - 1]! - x[n - 1 - above]!) / (x[n - 1]! - x[from - 1]!) > critical) beyond += 1
    }
    // Four standard deviations of a share of 5 % in so many draws.
    expect(Math.abs(beyond / draws - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / draws))
  }
})

const results = fc.array(
  fc.integer({ min: -100_000, max: 100_000 }).map((tenths) => (tenths / 10).toFixed(1)),
  { minLength: 3, maxLength: 12 },
)

test('both statistics are numbers within their bounds, whatever the results; order changes nothing of them', () => {
  fc.assert(
    fc.property(results, fc.constantFrom('high', 'low', 'two-sided'), (values, sides) => {
      const grubbs = grubbsTest(values, sides, 0.05)
      const dixon = dixonTest(values, sides, 0.05)
      const bound = (values.length - 1) / Math.sqrt(values.length)
      expect(Number(grubbs.statistic)).toBeGreaterThanOrEqual(0)
      expect(Number(grubbs.statistic)).toBeLessThanOrEqual(bound * (1 + 1e-12))
      expect(Number(grubbs.probability)).toBeGreaterThanOrEqual(0)
      expect(Number(dixon.statistic)).toBeGreaterThanOrEqual(0)
      expect(Number(dixon.statistic)).toBeLessThanOrEqual(1)
      const turned = [...values].reverse()
      expect(Number(grubbsTest(turned, sides, 0.05).statistic)).toBeCloseTo(Number(grubbs.statistic), 12)
      expect(dixonTest(turned, sides, 0.05).statistic).toBe(dixon.statistic)
    }),
  )
})
