import { algorithmA } from '@curebook/trade/statistics/algorithm-a'
import { interlaboratoryStudy } from '@curebook/trade/statistics/interlaboratory'
import { percentOf, percentWithinLimits, qualityIndexOf } from '@curebook/trade/statistics/percent-within-limits'
import { combineUncertainty, standardUncertaintyOf } from '@curebook/trade/statistics/uncertainty'
import { expect, test } from 'vitest'

// FHWA Technical Advisory T 5080.12, table 1B: quality index printed to two decimals for 73 % and 60 %, n = 3 to 9. The
// index there is rounded, so that the percentage comes back to 0.2.
test.each([
  [73, ['0.76', '0.69', '0.66', '0.65', '0.64', '0.63', '0.63']],
  [60, ['0.36', '0.30', '0.28', '0.27', '0.27', '0.27', '0.26']],
])('FHWA T 5080.12 table 1B, %d %%', (percent, indexes) => {
  for (const [offset, index] of indexes.entries())
    expect(Math.abs(Number(percentOf(Number(index), 3 + offset, 'exact beta')) - percent)).toBeLessThanOrEqual(0.2)
})

// n, index for 95, 90, 85, 80, 70, 60 %: computed outside, printed to four decimals.
test.each([
  [3, [1.1405, 1.0982, 1.0288, 0.9342, 0.6787, 0.3568]],
  [4, [1.35, 1.2, 1.05, 0.9, 0.6, 0.3]],
  [5, [1.4407, 1.229, 1.0467, 0.8799, 0.5719, 0.2822]],
  [7, [1.5181, 1.2492, 1.0413, 0.8625, 0.5504, 0.2691]],
  [10, [1.5635, 1.2602, 1.0382, 0.8533, 0.5394, 0.2624]],
])('indexes of the table for n = %d', (n, indexes) => {
  const percents = [95, 90, 85, 80, 70, 60]
  expect(percents.map((percent) => qualityIndexOf(percent, n).toNumber())).toEqual(indexes)
})

test('FAA percent-within-limits workshop: 96.0, 97.0, 99.0, 100.0 against 96.3 with s to 1.8 is 82, the next higher per cent', () => {
  // Printed with the standard deviation rounded: QL = 1.7 ÷ 1.8 = 0.9444, 81.48 exactly, 82 from the table.
  expect(Number(percentOf(1.7 / 1.8, 4, 'exact beta'))).toBeCloseTo(81.48, 2)
  expect(percentOf(1.7 / 1.8, 4, 'table, next higher')).toBe('82')
  const values = ['96.0', '97.0', '99.0', '100.0']
  const exact = percentWithinLimits(values, { lower: '96.3' }, 'exact beta')
  expect(exact.mean).toBe('98')
  expect(Number(exact.standardDeviation)).toBeCloseTo(1.8, 1)
  // Unrounded s = 1.8257: the answer moves by half a per cent.
  expect(Number(exact.percentWithin)).toBeCloseTo(81.04, 2)
})

test('five results: an index of 1.5 is 96.20 %', () => {
  expect(Number(percentOf(1.5, 5, 'exact beta'))).toBeCloseTo(96.2, 2)
})

test('GUM H.1, end gauge: u = 32 nm, effective degrees of freedom 16, U at 99 % = 93 nm', () => {
  // JCGM 100:2008, H.1: components in nm, with their degrees of freedom. d combines 5.8 (24), 3.9 (5) and 6.7 (8).
  const part = (name: string, standardUncertainty: string, degreesOfFreedom: string | null, sensitivity = '1') => ({
    name,
    sensitivity,
    standardUncertainty,
    degreesOfFreedom,
  })
  const difference = combineUncertainty(
    [part('repeated', '5.8', '24'), part('random', '3.9', '5'), part('systematic', '6.7', '8')],
    { factor: '2' },
  )
  expect(Number(difference.combined)).toBeCloseTo(9.7, 1)
  expect(Number(difference.effectiveDegreesOfFreedom)).toBeCloseTo(25.6, 0)
  const alphaDifference = standardUncertaintyOf('rectangular', '0.000001')
  const thetaDifference = standardUncertaintyOf('rectangular', '0.05')
  const length = '50000623'
  const gauge = combineUncertainty(
    [
      part('standard', '25', '18'),
      part('difference', difference.combined, difference.effectiveDegreesOfFreedom),
      part('expansion', '0.0000012', null, '0'),
      part('difference of expansion', alphaDifference, '50', String(-Number(length) * -0.1)),
      part('difference of temperature', thetaDifference, '2', String(-Number(length) * 11.5e-6)),
    ],
    { level: 0.99 },
  )
  expect(gauge.contributions.map(({ amount }) => Number(Number(amount).toFixed(1)))).toEqual([25, 9.7, 0, 2.9, 16.6])
  expect(Math.abs(Number(gauge.combined) - 32)).toBeLessThan(0.5)
  expect(Number(gauge.effectiveDegreesOfFreedom)).toBeCloseTo(16.7, 0)
  expect(Math.floor(Number(gauge.effectiveDegreesOfFreedom))).toBe(16)
  expect(Number(gauge.coverageFactor)).toBeCloseTo(2.92, 2)
  // The guide multiplies the rounded 32 by 2.92.
  expect(Math.abs(Number(gauge.expanded) - 93)).toBeLessThan(1)
})

test('calibration standard of the Eurachem guide, A1: u of 1002.7 mg/L is 0.835, with the volume printed as 0.07 mL 0.864', () => {
  // Inputs but the volume's from memory, unverified. c = 1000 m P ÷ V.
  const [m, p, v] = [100.28, 0.9999, 100]
  const c = (1000 * m * p) / v
  const found = (volume: string) =>
    combineUncertainty(
      [
        { name: 'mass', sensitivity: String(c / m), standardUncertainty: '0.05', degreesOfFreedom: null },
        { name: 'purity', sensitivity: String(c / p), standardUncertainty: '0.000058', degreesOfFreedom: null },
        { name: 'volume', sensitivity: String(-c / v), standardUncertainty: volume, degreesOfFreedom: null },
      ],
      { factor: '2' },
    )
  expect(Number(found('0.07').combined)).toBeCloseTo(0.8637, 4)
  expect(Number(found('0.066473').combined)).toBeCloseTo(0.8352, 4)
  expect(Number(found('0.07').expanded)).toBeCloseTo(1.73, 2)
})

test('ISO 13528 algorithm A on two sets (inputs from memory; outputs computed outside)', () => {
  const copper = `2.9 3.1 3.4 3.4 3.7 3.7 2.8 2.5 2.4 2.4 2.7 2.2 5.28 3.37 3.03 3.03 28.95 3.77 3.4 2.2 3.5 3.6 3.7 3.7`
  const first = algorithmA(copper.split(' '))
  expect(first.n).toBe(24)
  expect(Number(first.mean)).toBeCloseTo(3.205566, 6)
  expect(Number(first.standardDeviation)).toBeCloseTo(0.67415, 6)
  const second = algorithmA(['4.5', '4.9', '5.6', '4.2', '6.2', '5.2', '9.9'])
  expect(Number(second.mean)).toBeCloseTo(5.3865, 4)
  expect(Number(second.standardDeviation)).toBeCloseTo(1.146, 4)
})

test('ASTM E691, glucose in serum, material A (results from memory): the four printed values come back', () => {
  const cells = `41.03 41.45 41.37; 41.17 42.00 41.15; 41.01 40.68 42.66; 39.37 42.37 42.63
    41.88 41.19 41.32; 43.28 40.50 42.28; 41.08 41.27 39.02; 43.36 42.65 41.72`
  const study = interlaboratoryStudy(cells.split(/[;\n]/).map((cell) => cell.trim().split(' ')))
  expect(study).toMatchObject({ laboratories: 8, replicates: 3 })
  expect(Number(study.mean)).toBeCloseTo(41.5183, 4)
  expect(Number(study.standardDeviationOfMeans)).toBeCloseTo(0.6061, 4)
  expect(Number(study.repeatability.standardDeviation)).toBeCloseTo(1.0632, 4)
  // Between laboratories it scatters less than within: reproducibility is repeatability.
  expect(Number(study.reproducibility.standardDeviation)).toBeCloseTo(1.0632, 4)
  expect(Number(study.repeatability.limit)).toBeCloseTo(2.98, 2)
  expect(study.each.every(({ hExceeds, kExceeds }) => !hExceeds && !kExceeds)).toBe(true)
})
