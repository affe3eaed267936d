import fc from 'fast-check'
import { expect, test } from 'vitest'
import { algorithmA } from './algorithm-a.ts'
import { criticalHOf, criticalKOf, interlaboratoryStudy } from './interlaboratory.ts'

test('a robust mean is not moved by how far out the outlier lies', () => {
  const values = ['10.1', '10.2', '9.9', '10.0', '10.3']
  const far = algorithmA([...values, '100'])
  expect(algorithmA([...values, '1000']).mean).toBe(far.mean)
  expect(Number(far.mean)).toBeLessThan(10.5)
  expect(far).toMatchObject({ n: 6, startedFrom: 'median absolute deviation' })
})

test('where more than half of the results are the same it says what it started from', () => {
  expect(algorithmA(['5', '5', '5', '5'])).toMatchObject({
    mean: '5',
    standardDeviation: '0',
    startedFrom: 'standard deviation',
  })
  const mostly = ['5', '5', '5', '6', '4.5']
  expect(algorithmA(mostly).startedFrom).toBe('standard deviation')
})

test('critical h and k at 0.5 %: eight laboratories, three results each', () => {
  expect(criticalHOf(8)).toBeCloseTo(2.15, 2)
  expect(criticalKOf(8, 3)).toBeCloseTo(2.06, 2)
})

test('precision by hand: two results each of 0 and 2, 4 and 6, 8 and 10', () => {
  const study = interlaboratoryStudy([
    ['0', '2'],
    ['4', '6'],
    ['8', '10'],
  ])
  // s = √2 in each; means 1, 5, 9 with s = 4; sR² = 16 + 2 × 1/2
  expect(Number(study.repeatability.standardDeviation)).toBeCloseTo(Math.SQRT2, 14)
  expect(study.standardDeviationOfMeans).toBe('4')
  expect(Number(study.reproducibility.standardDeviation)).toBeCloseTo(Math.sqrt(17), 14)
  expect(Number(study.repeatability.limit)).toBeCloseTo(2.8 * Math.SQRT2, 14)
  expect(study.each.map(({ h }) => h)).toEqual(['-1', '0', '1'])
  expect(study.each.every(({ hExceeds, kExceeds }) => !hExceeds && !kExceeds)).toBe(true)
})

test('reproducibility is never below repeatability, and nothing that scatters not is divided by', () => {
  const study = interlaboratoryStudy([
    ['0', '10'],
    ['10', '0'],
    ['5', '5'],
  ])
  expect(study.reproducibility).toEqual(study.repeatability)
  expect(study.each.map(({ h }) => h)).toEqual([null, null, null])
  expect(
    interlaboratoryStudy([
      ['1', '1'],
      ['2', '2'],
      ['3', '3'],
    ]).each[0]?.k,
  ).toBeNull()
})

test('too few or uneven: refused', () => {
  expect(() => algorithmA(['1', '2'])).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() =>
    interlaboratoryStudy([
      ['1', '2'],
      ['1', '2'],
    ]),
  ).toThrow(expect.objectContaining({ code: 'missing-reading' }))
  expect(() => interlaboratoryStudy([['1', '2'], ['1', '2'], ['1']])).toThrow(
    expect.objectContaining({ code: 'missing-reading' }),
  )
  expect(() =>
    interlaboratoryStudy([
      ['1', '2'],
      ['1', '2'],
      ['1', '2', '3'],
    ]),
  ).toThrow(expect.objectContaining({ code: 'inconsistent' }))
})

const tenths = fc.integer({ min: 0, max: 300 }).map((each) => (each / 10).toFixed(1))

test('any results: a robust mean between the least and the greatest, or a typed refusal', () => {
  fc.assert(
    fc.property(fc.array(tenths, { minLength: 0, maxLength: 15 }), (values) => {
      try {
        const { mean, standardDeviation } = algorithmA(values)
        expect(Number(mean)).toBeGreaterThanOrEqual(Math.min(...values.map(Number)))
        expect(Number(mean)).toBeLessThanOrEqual(Math.max(...values.map(Number)))
        expect(Number(standardDeviation)).toBeGreaterThanOrEqual(0)
      } catch (error) {
        expect(error).toMatchObject({ name: 'MethodInputError' })
      }
    }),
  )
})
