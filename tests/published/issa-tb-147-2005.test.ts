import { loadedWheelDisplacement } from '@curebook/trade/methods/displacement'
import { decimal } from '@curebook/trade/quantity/decimal'
import { convert } from '@curebook/trade/quantity/units'
import { expect, test } from 'vitest'

export const methods = ['loaded-wheel-displacement', 'batch']

// Source: ISSA TB-147 (2005), opening page: plate of 24 gauge, 0.61 × 76.2 × 406.4 mm; 500 g of aggregate for the 12.7 mm
// mould; calliper to 0.01 mm. It prints no worked displacement; what else the method asks for is from memory.
const parameters = loadedWheelDisplacement.editions[0]?.parameters ?? {}

test.each([
  ['strip-aggregate', '500', 'g'],
  ['mould-thickness', '12.7', 'mm'],
  ['plate-thickness', '0.61', 'mm'],
  ['plate-width', '76.2', 'mm'],
  ['plate-length', '406.4', 'mm'],
  ['calliper-step', '0.01', 'mm'],
])('%s is %s %s', (key, value, unit) => {
  expect(parameters[key]).toMatchObject({ value, unit, certainty: 'published', source: 'ISSA TB-147 (2005)' })
})

test('the lengths are whole inches and halves: mould ½ in, plate 3 × 16 in', () => {
  const inches = (key: string) => convert(decimal(parameters[key]?.value ?? ''), 'mm', 'in').toString()
  expect(['mould-thickness', 'plate-width', 'plate-length'].map(inches)).toEqual(['0.5', '3', '16'])
})

test('every calliper reading is taken to that step', () => {
  const read = loadedWheelDisplacement.steps.flatMap(({ readings }) => readings).filter(({ unit }) => unit === 'mm')
  expect(read.length).toBeGreaterThan(0)
  for (const { resolution } of read) expect(resolution).toBe(parameters['calliper-step']?.value)
})
