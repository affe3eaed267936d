import fc from 'fast-check'
import { expect, test } from 'vitest'
import { leastSquares } from './least-squares.ts'
import { calibratedX, meanInterval, predictionInterval } from './line-interval.ts'
import { fitLine, lineAt } from './line.ts'

const points = [
  { x: '1', y: '2.1' },
  { x: '2', y: '3.9' },
  { x: '3', y: '6.2' },
  { x: '4', y: '7.8' },
  { x: '5', y: '10.1' },
]

test('a line by hand: slope 1.99, intercept 0.05, and what they are known to', () => {
  const line = fitLine(points)
  expect(line).toMatchObject({ n: 5, degreesOfFreedom: 3, from: '1', to: '5', meanX: '3', sumOfSquaresX: '10' })
  expect(Number(line.slope.value)).toBeCloseTo(1.99, 14)
  expect(Number(line.intercept?.value)).toBeCloseTo(0.05, 14)
  // Σ of squared residuals 0.107; s = √(0.107 ÷ 3), of the slope s ÷ √10, of the intercept s √(1/5 + 9/10)
  const s = Math.sqrt(0.107 / 3)
  expect(Number(line.residualStandardDeviation)).toBeCloseTo(s, 14)
  expect(Number(line.slope.standardError)).toBeCloseTo(s / Math.sqrt(10), 14)
  expect(Number(line.intercept?.standardError)).toBeCloseTo(s * Math.sqrt(1.1), 14)
})

test('intervals: of the mean narrowest in the middle, of a result wider, of a mean of results between', () => {
  const line = fitLine(points)
  const width = ({ from, to }: { from: string; to: string }) => Number(to) - Number(from)
  const middle = width(meanInterval(line, '3', 0.95))
  expect(middle).toBeCloseTo((2 * 3.182446305284263 * Math.sqrt(0.107 / 3)) / Math.sqrt(5), 10)
  expect(width(meanInterval(line, '5', 0.95))).toBeGreaterThan(middle)
  expect(width(predictionInterval(line, '3', 0.95))).toBeGreaterThan(width(predictionInterval(line, '3', 0.95, 4)))
  expect(width(predictionInterval(line, '3', 0.95, 4))).toBeGreaterThan(middle)
})

test('a calibration is read backwards, and not outside its points', () => {
  const line = fitLine(points)
  const found = calibratedX(line, ['6.0', '6.04'], 0.95)
  expect(Number(found.value)).toBeCloseTo(3, 12)
  expect(Number(found.standardError)).toBeCloseTo((Math.sqrt(0.107 / 3) / 1.99) * Math.sqrt(1 / 2 + 1 / 5), 12)
  const outside = expect.objectContaining({ code: 'inconsistent' })
  expect(() => calibratedX(line, ['30'], 0.95)).toThrow(outside)
  expect(() => lineAt(line, '5.001')).toThrow(outside)
  expect(() => meanInterval(line, '0.9', 0.95)).toThrow(outside)
})

test('through the origin there is no intercept, and the interval closes there', () => {
  const line = fitLine([{ x: '0', y: '0.2' }, ...points], { throughOrigin: true })
  expect(line.intercept).toBeNull()
  expect(Number(line.slope.value)).toBeCloseTo(110.2 / 55, 14)
  const atZero = meanInterval(line, '0', 0.95)
  expect([atZero.value, atZero.from, atZero.to]).toEqual(['0', '0', '0'])
})

test('a level line has no r², and cannot be read backwards', () => {
  const level = fitLine([
    { x: '1', y: '4' },
    { x: '2', y: '4' },
    { x: '3', y: '4' },
  ])
  expect(level).toMatchObject({ rSquared: null, slope: { value: '0' } })
  expect(() => calibratedX(level, ['4'], 0.95)).toThrow(expect.objectContaining({ code: 'inconsistent' }))
})

test('too few points, one x only, a column that follows from the others: refused', () => {
  const missing = expect.objectContaining({ code: 'missing-reading' })
  const inconsistent = expect.objectContaining({ code: 'inconsistent' })
  expect(() => fitLine(points.slice(0, 2))).toThrow(missing)
  expect(() => fitLine(points.map(({ y }) => ({ x: '3', y })))).toThrow(inconsistent)
  expect(() =>
    fitLine(
      [
        { x: '0', y: '1' },
        { x: '0', y: '2' },
      ],
      { throughOrigin: true },
    ),
  ).toThrow(inconsistent)
  const rows = points.map(({ x }) => [x, String(2 * Number(x))])
  expect(() =>
    leastSquares(
      rows,
      points.map(({ y }) => y),
      { constant: true },
    ),
  ).toThrow(inconsistent)
  expect(() => leastSquares([['1'], ['2', '3']], ['1', '2'], { constant: false })).toThrow(inconsistent)
  expect(() => leastSquares([['1'], ['2']], ['1', '2'], { constant: true })).toThrow(missing)
  expect(() => fitLine([...points, { x: '6', y: 'NaN' }])).toThrow(inconsistent)
})

const tenths = fc.integer({ min: -20_000, max: 20_000 }).map((each) => (each / 10).toFixed(1))
const clouds = fc.array(fc.record({ x: tenths, y: tenths }), { minLength: 0, maxLength: 12 })

test('any points: a line of numbers whose residuals sum to 0, or a typed refusal', () => {
  fc.assert(
    fc.property(clouds, (cloud) => {
      try {
        const line = fitLine(cloud)
        const numbers = [
          line.slope.value,
          line.slope.standardError,
          line.residualStandardDeviation,
          line.rSquared ?? '0',
        ]
        for (const digits of numbers) expect(digits).toMatch(/^-?\d+(\.\d+)?$/)
        const sum = cloud.reduce((total, { x, y }) => total + Number(y) - lineAt(line, x).toNumber(), 0)
        expect(Math.abs(sum)).toBeLessThan(1e-8)
        expect(Number(line.rSquared ?? 0)).toBeGreaterThan(-1e-20)
      } catch (error) {
        expect(error).toMatchObject({ name: 'MethodInputError' })
      }
    }),
  )
})
