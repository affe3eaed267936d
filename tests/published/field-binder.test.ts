import { moistureOfDryMass } from '@curebook/trade/design/binder-basis'
import { binderExtraction, binderExtractionEn } from '@curebook/trade/methods/binder-extraction'
import { binderIgnition } from '@curebook/trade/methods/binder-ignition'
import { round } from '@curebook/trade/quantity/rounding'
import { expect, test } from 'vitest'

export const methods = ['binder-ignition', 'binder-extraction', 'binder-extraction-en']

// Source of the tolerances: abstract of a master's thesis of Auburn University on mixture sampling and binder content of
// slurry surfacing systems; its year was not seen. No document at hand prints the weighings of an ignition or an
// extraction of a slurry surfacing together with its binder content, so no binder content is checked from outside: the
// worked ones in the reference cases are constructed.
test.each([binderIgnition, binderExtraction, binderExtractionEn])(
  '$key says ±0.426 % within and ±1.051 % between laboratories',
  (method) => {
    for (const { reporting } of method.results.filter(({ key }) => key === 'binder-content'))
      expect(reporting?.words).toMatch(/±0\.426 % within one laboratory.*±1\.051 % between laboratories/)
  },
)

test('moisture has two bases: 7.80 % of wet mass is 8.46 % of dry mass', () => {
  expect(round(moistureOfDryMass('7.80'), 2, 'half-even')).toBe('8.46')
})
