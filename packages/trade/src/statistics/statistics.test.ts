import { expect, test } from 'vitest'
import { mean } from './mean.ts'
import { pooledScatter } from './pooled-scatter.ts'
import { range } from './range.ts'
import { replicateSummary } from './replicate-summary.ts'
import { standardDeviation } from './standard-deviation.ts'

test('replicates are summed up with n, mean, standard deviation and extremes at full precision', () => {
  expect(replicateSummary(['18.8', '20.1', '23.6'])).toEqual({
    n: 3,
    mean: '20.83333333333333333333333333333333',
    standardDeviation: expect.stringMatching(/^2\.48260615/),
    min: '18.8',
    max: '23.6',
    range: '4.8',
  })
})

test('a single result has a mean and no standard deviation', () => {
  expect(replicateSummary(['9.3'])).toEqual({
    n: 1,
    mean: '9.3',
    standardDeviation: null,
    min: '9.3',
    max: '9.3',
    range: '0',
  })
})

test('what cannot be computed is refused, never a number that is none', () => {
  const missing = expect.objectContaining({ code: 'missing-reading' })
  expect(() => mean([])).toThrow(missing)
  expect(() => range([])).toThrow(missing)
  expect(() => standardDeviation(['1'])).toThrow(missing)
  expect(() => pooledScatter([['1'], ['2']], 'log')).toThrow(missing)
  expect(() => pooledScatter([['0', '1']], 'log')).toThrow(expect.objectContaining({ code: 'not-positive' }))
})

test('the last digit of large and alike values survives', () => {
  const values = ['100000000000000000000000000001', '100000000000000000000000000003', '100000000000000000000000000002']
  expect(standardDeviation(values).toFixed()).toBe('1')
})

test('groups of one result take no part in pooled scatter', () => {
  const groups = [
    ['10', '11'],
    ['100', '110'],
  ]
  const pooled = pooledScatter(groups, 'relative')
  expect(pooled.degreesOfFreedom).toBe(2)
  expect(pooledScatter([...groups, ['7']], 'relative')).toEqual(pooled)
})
