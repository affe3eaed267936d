import { mean } from '@curebook/trade/statistics/mean'
import { standardDeviation } from '@curebook/trade/statistics/standard-deviation'
import { expect, test } from 'vitest'

// Source: NIST Statistical Reference Datasets, univariate summary statistics. The certified values of NumAcc1 and NumAcc4
// are exact; those of Michelso are given to 15 digits.

const michelso = `
  299.85 299.74 299.90 300.07 299.93 299.85 299.95 299.98 299.98 299.88 300.00 299.98 299.93 299.65 299.76 299.81 300.00
  300.00 299.96 299.96 299.96 299.94 299.96 299.94 299.88 299.80 299.85 299.88 299.90 299.84 299.83 299.79 299.81 299.88
  299.88 299.83 299.80 299.79 299.76 299.80 299.88 299.88 299.88 299.86 299.72 299.72 299.62 299.86 299.97 299.95 299.88
  299.91 299.85 299.87 299.84 299.84 299.85 299.84 299.84 299.84 299.89 299.81 299.81 299.82 299.80 299.77 299.76 299.74
  299.75 299.76 299.91 299.92 299.89 299.86 299.88 299.72 299.84 299.85 299.85 299.78 299.89 299.84 299.78 299.81 299.76
  299.81 299.79 299.81 299.82 299.85 299.87 299.87 299.81 299.74 299.81 299.94 299.95 299.80 299.81 299.87`
  .trim()
  .split(/\s+/)

test('NumAcc1: mean 10000002 and standard deviation 1, exactly', () => {
  const values = ['10000001', '10000003', '10000002']
  expect(mean(values).toFixed()).toBe('10000002')
  expect(standardDeviation(values).toFixed()).toBe('1')
})

test('NumAcc4: mean 10000000.2 and standard deviation 0.1, exactly', () => {
  const values = ['10000000.2', ...Array.from({ length: 500 }, () => ['10000000.1', '10000000.3']).flat()]
  expect(values).toHaveLength(1001)
  expect(mean(values).toFixed()).toBe('10000000.2')
  expect(standardDeviation(values).toFixed()).toBe('0.1')
})

test('Michelso: mean 299.852400000000 and standard deviation 0.0790105478190518', () => {
  expect(michelso).toHaveLength(100)
  expect(mean(michelso).toFixed()).toBe('299.8524')
  expect(standardDeviation(michelso).toSignificantDigits(15).toFixed()).toBe('0.0790105478190518')
})
