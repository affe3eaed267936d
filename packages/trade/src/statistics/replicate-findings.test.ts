import { expect, test } from 'vitest'
import { replicateFindings } from './replicate-findings.ts'

const of = (...values: string[]) => values.map((value, index) => ({ id: `s${index + 1}`, value }))
/** 1.960 × √2: the limit of a standard deviation of 1 (ASTM E177). */
const r = { value: '2.771808', unit: 'g', source: 'ASTM E177' }

test('a standard deviation of 1: three results may span 3.314, five 3.858, as the studentized range has it', () => {
  const three = replicateFindings(of('10.0', '12.0', '13.2'), 'g', r)
  expect(three.summary).toMatchObject({ n: 3, range: '3.2' })
  expect(three.acceptable).toMatchObject({ within: true })
  expect(Number(three.acceptable!.limit)).toBeCloseTo(3.314, 3)
  const five = replicateFindings(of('10', '11', '12', '13', '13.87'), 'g', r)
  expect(five.acceptable).toMatchObject({ within: false })
  expect(Number(five.acceptable!.limit)).toBeCloseTo(3.858, 3)
})

test('of two results the limit is the repeatability itself, and on it is within', () => {
  const limit = { value: '0.426', unit: '%', source: 'a study' }
  expect(replicateFindings(of('8.000', '8.426'), '%', limit).acceptable).toEqual({ limit: '0.426', within: true })
  expect(replicateFindings(of('8.000', '8.427'), '%', limit).acceptable).toEqual({ limit: '0.426', within: false })
})

test('nothing is made up: no repeatability, another unit, one result or more than ten give no acceptable range', () => {
  expect(replicateFindings(of('1', '2'), 'g', null).acceptable).toBeNull()
  expect(replicateFindings(of('1', '2'), 'g/m²', r).acceptable).toBeNull()
  expect(replicateFindings(of('1'), 'g', r)).toMatchObject({ acceptable: null, untested: 'too-few', outliers: [] })
  expect(replicateFindings(of(...Array.from({ length: 11 }, (_, i) => String(i))), 'g', r).acceptable).toBeNull()
})

test('both tests name the suspect by its id; of more than thirty results Dixon says nothing', () => {
  // NIST/SEMATECH e-Handbook 1.3.5.17; two-sided 5 % of n = 8 is 2.1266.
  const values = ['199.31', '199.53', '200.19', '200.82', '201.92', '201.95', '202.18', '245.57']
  const { outliers } = replicateFindings(of(...values), 'ppm', null)
  expect(outliers).toMatchObject([
    { test: 'Grubbs', suspect: 's8', exceeds: true, significance: 0.05, sides: 'two-sided' },
    { test: 'Dixon', ratio: 'r11', suspect: 's8', exceeds: true },
  ])
  expect(Number(outliers[0]!.statistic)).toBeCloseTo(2.468765, 6)
  expect(Number(outliers[0]!.critical)).toBeCloseTo(2.1266, 4)
  const many = replicateFindings(of(...Array.from({ length: 31 }, (_, i) => String(i))), 'g', null)
  expect(many.outliers.map((found) => found.test)).toEqual(['Grubbs'])
})

test('readings in coarse steps are no outliers: with two different values no test is made', () => {
  expect(replicateFindings(of('14', '14.0', '14.5'), 'kg·cm', null)).toMatchObject({
    untested: 'too-coarse',
    outliers: [],
  })
  expect(replicateFindings(of('14', '14.5', '15'), 'kg·cm', null).outliers.map(({ exceeds }) => exceeds)).toEqual([
    false,
    false,
  ])
})
