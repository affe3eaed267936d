import { factorOfArea, openingArea } from '@curebook/trade/methods/machine-factor'
import { wetTrackAbrasion1h } from '@curebook/trade/methods/wet-track-abrasion'
import { decimal } from '@curebook/trade/quantity/decimal'
import { conversionFactor } from '@curebook/trade/quantity/units'
import { round } from '@curebook/trade/quantity/rounding'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { expect, test } from 'vitest'

export const methods = [
  'wet-track-abrasion-1h',
  'wet-track-abrasion-6d',
  'wet-track-abrasion-3d',
  'wet-track-abrasion-en',
  'loaded-wheel-sand-adhesion',
]

// No published worked value is at hand for the formulas of ISSA TB-100 (loss × factor) and TB-109 (adhesion ÷ opening): no
// document that was read prints weighings together with the result; nor for the 3-day soak of a mastic surface, nor for the
// wearing of EN 12274-5. The factors themselves are from memory, unverified.
// What can be checked is that they agree with themselves: every factor of the class table is 1 ÷ the same area in both
// units, which is 10.764 apart, and the limits are printed in pairs. Constructed examples stand in the reference cases and
// do not count as an outside check.
const parameters = wetTrackAbrasion1h.editions[0]?.parameters ?? {}
const perFoot = conversionFactor('g/ft²', 'g/m²')

test('one g/ft² is 10.7639 g/m²', () => {
  expect(perFoot.toFixed(4)).toBe('10.7639')
})

test.each(['a', 'a-modified', 'b', 'c'])('class %s: its two factors are one area within 0.12 %%', (key) => {
  const metres = decimal(parameters[`class-${key}-factor-g-m2`]?.value ?? '')
  const feet = decimal(parameters[`class-${key}-factor-g-ft2`]?.value ?? '')
  expect(metres.div(feet).div(perFoot).minus(1).abs().lt('0.0012')).toBe(true)
})

test('a sand frame of 1.5 × 14 in gives 73.81 g/m² and 6.857 g/ft² for each gram', () => {
  const opening = openingArea('38.1', '355.6')
  expect(round(factorOfArea(opening, 'g/m²'), 2, 'half-even')).toBe('73.81')
  expect(round(factorOfArea(opening, 'g/ft²'), 3, 'half-even')).toBe('6.857')
})

test('every limit in g/m² is its printed US figure, cut to whole grams', () => {
  const pairs = builtInSpecifications.flatMap(({ limits }) => limits).filter(({ usUnit }) => usUnit === 'g/ft²')
  expect(pairs.length).toBeGreaterThan(0)
  for (const { value, usValue } of pairs)
    expect(value).toBe(round(perFoot.times(usValue ?? '').toFixed(), 0, 'half-even'))
})
