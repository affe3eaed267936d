import { coneConsistencyEn } from '@curebook/trade/methods/cone-consistency'
import { decimal } from '@curebook/trade/quantity/decimal'
import { expect, test } from 'vitest'

export const methods = ['cone-consistency-en']

// Source: EN 12274-3:2018, test for consistency of slurry surfacing up to 4 mm: cone of 40 ± 1, 90 ± 1 and 75 ± 1 mm; one
// portion of 400 ± 5 g dry, or of 400 × (100 + W) ÷ 100 ± 5 g moist, W being the water in per cent; 23 ± 5 °C. At W = 4.0 %
// the portion is 416.0 g.
const { parameters } = coneConsistencyEn.editions[0]!
const valueOf = (key: string) => `${parameters[key]?.value} ${parameters[key]?.unit}`

test.each([
  ['cone-top', '40 mm'],
  ['cone-base', '90 mm'],
  ['cone-height', '75 mm'],
  ['cone-tolerance', '1 mm'],
  ['largest-aggregate', '4 mm'],
  ['aggregate', '400 g'],
  ['aggregate-tolerance', '5 g'],
  ['temperature', '23 °C'],
  ['temperature-tolerance', '5 °C'],
])('%s is printed as %s', (key, value) => {
  expect(valueOf(key)).toBe(value)
  expect(parameters[key]).toMatchObject({ certainty: 'published', source: 'EN 12274-3 (2018)' })
})

test('the moist portion of 416.0 g at 4.0 % of water is the dry portion of 400 g', () => {
  const moist = decimal(400).times(decimal(100).plus('4.0')).div(100)
  expect(moist.toFixed(1)).toBe('416.0')
  const cone = (number: number, water: string, flow: string) => [
    { step: `cone-${number}`, key: 'aggregate', value: moist.toFixed(1) },
    { step: `cone-${number}`, key: 'water', value: water },
    { step: `cone-${number}`, key: 'segregation', value: 'none' },
    ...[1, 2, 3, 4].map((repeat) => ({ step: `cone-${number}`, key: 'flow', value: flow, repeat })),
  ]
  const { results } = coneConsistencyEn.evaluate(
    [
      { step: 'prepare', key: 'moisture', value: '4.0' },
      { step: 'prepare', key: 'temperature', value: '23' },
      ...cone(1, '40', '25'),
      ...cone(2, '48', '35'),
    ].map((reading, index) => ({ id: String(index), repeat: 1, ...reading })),
    { parameters, factors: [], inputs: {} },
  )
  const dry = results[1]?.calculation.lines.find(({ name }) => name === 'Dry aggregate, cone 1')
  expect(dry).toMatchObject({ value: '400', unit: 'g' })
  expect(results[0]?.findings).toBeUndefined()
})

test('the tolerance of 5 g is of the moist portion', () => {
  const findings = (aggregate: string) =>
    coneConsistencyEn.evaluate(
      [
        { step: 'prepare', key: 'moisture', value: '4.0' },
        { step: 'prepare', key: 'temperature', value: '23' },
        { step: 'cone-1', key: 'aggregate', value: aggregate },
        { step: 'cone-1', key: 'segregation', value: 'none' },
        ...[1, 2, 3, 4].map((repeat) => ({ step: 'cone-1', key: 'flow', value: '25', repeat })),
      ].map((reading, index) => ({ id: String(index), repeat: 1, ...reading })),
      { parameters, factors: [], inputs: {} },
    ).results[0]?.findings
  expect(['411.0', '421.0'].map(findings)).toEqual([undefined, undefined])
  expect([findings('410.9'), findings('421.1')].map((found) => found?.length)).toEqual([1, 1])
})
