import { expect, test } from 'vitest'
import { enScore, needsZPrime, proficiencyRating, zetaScore, zPrimeScore, zScore } from './proficiency-score.ts'

test('one result, four scores (constructed)', () => {
  expect(zScore('10.25', '10.05', '0.1')).toEqual({ score: 'z', value: '2', verdict: 'satisfactory' })
  expect(Number(zPrimeScore('10.25', '10.05', '0.1', '0.03').value)).toBeCloseTo(1.916, 3)
  expect(Number(zetaScore('10.25', '10.05', '0.06', '0.04').value)).toBeCloseTo(2.774, 3)
  expect(zetaScore('10.25', '10.05', '0.06', '0.04').verdict).toBe('questionable')
  const en = enScore('10.25', '10.05', '0.12', '0.08')
  expect(Number(en.value)).toBeCloseTo(1.387, 3)
  expect(en.verdict).toBe('unsatisfactory')
})

test('the bounds: 2 is satisfactory, 3 is not any more; 0.3 σ is not above 0.3 σ', () => {
  expect(zScore('12.01', '10', '1').verdict).toBe('questionable')
  expect(zScore('7.01', '10', '1').verdict).toBe('questionable')
  expect(zScore('7', '10', '1').verdict).toBe('unsatisfactory')
  expect(enScore('11', '10', '0.6', '0.8').verdict).toBe('satisfactory')
  expect(needsZPrime('1', '0.3')).toBe(false)
  expect(needsZPrime('1', '0.31')).toBe(true)
})

test.each([
  ['0.99', 5],
  ['1.00', 5],
  ['1.01', 4],
  ['-1.50', -4],
  ['1.51', 3],
  ['2.00', 3],
  ['2.01', 2],
  ['2.50', 2],
  ['3.00', 1],
  ['3.01', 0],
  ['-9', 0],
])('a z of %s is rated %d by the AASHTO accreditation programme', (z, rating) => {
  expect(proficiencyRating(z)).toEqual({ rating, needsCause: Math.abs(rating) <= 2 })
})

test('no scatter, no number: refused', () => {
  expect(() => zScore('1', '1', '0')).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => zScore('n/a', '1', '1')).toThrow(expect.objectContaining({ code: 'inconsistent' }))
  expect(() => enScore('1', '1', '-1', '1')).toThrow(expect.objectContaining({ code: 'not-positive' }))
})
