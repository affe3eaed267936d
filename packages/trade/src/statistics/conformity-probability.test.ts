import { expect, test } from 'vitest'
import { conformityProbability } from './conformity-probability.ts'

test.each([
  ['88', 0.9772],
  ['89', 0.8413],
  ['90', 0.5],
  ['90.5', 0.3085],
])('%s with u = 1 lies at 90 or below with a probability of %d (computed)', (value, probability) => {
  const result = { value, standardUncertainty: '1' }
  expect(Number(conformityProbability(result, { upper: '90' }))).toBeCloseTo(probability, 4)
  const mirrored = { value: String(-Number(value)), standardUncertainty: '1' }
  expect(Number(conformityProbability(mirrored, { lower: '-90' }))).toBeCloseTo(probability, 4)
})

test('between two limits both ends take from it; without a limit there is nothing to conform to', () => {
  const result = { value: '10', standardUncertainty: '1' }
  expect(Number(conformityProbability(result, { lower: '9', upper: '11' }))).toBeCloseTo(0.6827, 4)
  for (const none of [{}, { lower: null, upper: null }])
    expect(() => conformityProbability(result, none)).toThrow(expect.objectContaining({ code: 'missing-setup' }))
})

test('without an uncertainty there is no probability', () => {
  expect(() => conformityProbability({ value: '1', standardUncertainty: '0' }, { upper: '2' })).toThrow(
    expect.objectContaining({ code: 'not-positive' }),
  )
  expect(() => conformityProbability({ value: '1', standardUncertainty: '1' }, { upper: 'none' })).toThrow(
    expect.objectContaining({ code: 'inconsistent' }),
  )
})
