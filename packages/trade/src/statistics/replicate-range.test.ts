import { expect, test } from 'vitest'
import { coefficientOfVariation } from './coefficient-of-variation.ts'
import { checkReplicateRange, rangeFactor } from './replicate-range.ts'

test('the factors are the 95 % quantiles of the range, printed to one decimal', () => {
  const numbers = [2, 3, 4, 5, 6, 7, 8, 9, 10]
  expect(numbers.map((n) => Number(rangeFactor(n, 'exact')).toFixed(3))).toEqual([
    '2.772',
    '3.314',
    '3.633',
    '3.858',
    '4.030',
    '4.170',
    '4.286',
    '4.387',
    '4.474',
  ])
  // Printed in ASTM C670, from memory, unverified.
  expect(numbers.map((n) => rangeFactor(n, 'printed'))).toEqual([
    '2.8',
    '3.3',
    '3.6',
    '3.9',
    '4.0',
    '4.2',
    '4.3',
    '4.4',
    '4.5',
  ])
})

test('three results with a range of 3.2 are accepted at s = 1, two are not; which table is used can decide', () => {
  const s = { standardDeviation: '1.0' }
  expect(checkReplicateRange(['10.0', '12.0', '13.2'], s, 'exact')).toMatchObject({ range: '3.2', within: true })
  expect(checkReplicateRange(['10.0', '13.2'], s, 'exact').within).toBe(false)
  const five = ['0', '1', '2', '3', '3.87']
  expect(checkReplicateRange(five, s, 'exact').within).toBe(false)
  expect(checkReplicateRange(five, s, 'printed')).toMatchObject({ within: true, limit: '3.9' })
})

test('by a coefficient of variation the range is taken in per cent of the mean', () => {
  const check = checkReplicateRange(['480', '520'], { coefficientOfVariation: '3' }, 'printed')
  expect(check).toMatchObject({ range: '8', limit: '8.4', within: true })
  expect(check.sentence).toBe(
    'The 2 results agree: range 8 % of their mean, acceptable 8.4 % of their mean (ASTM C670, printed factor 2.8).',
  )
  expect(coefficientOfVariation(['480', '520'])).toMatch(/^5\.6568542494923/)
})

test('too few, too many, no scatter on record: refused', () => {
  const s = { standardDeviation: '1' }
  expect(() => checkReplicateRange(['1'], s, 'exact')).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() => checkReplicateRange(Array<string>(11).fill('1'), s, 'exact')).toThrow(
    expect.objectContaining({ code: 'inconsistent' }),
  )
  expect(() => checkReplicateRange(['1', '2'], { standardDeviation: '0' }, 'exact')).toThrow(
    expect.objectContaining({ code: 'not-positive' }),
  )
  expect(() => checkReplicateRange(['-1', '1'], { coefficientOfVariation: '3' }, 'exact')).toThrow(
    expect.objectContaining({ code: 'not-positive' }),
  )
  expect(() => coefficientOfVariation(['-1', '1'])).toThrow(expect.objectContaining({ code: 'not-positive' }))
})
