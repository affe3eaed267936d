import { batch } from '@curebook/trade/methods/batch'
import { loadedWheelSandAdhesion } from '@curebook/trade/methods/loaded-wheel-sand-adhesion'
import { expect, test } from 'vitest'

export const methods = ['loaded-wheel-sand-adhesion', 'batch']

// Sources: ISSA TB-109 (2018), clauses 3.2 to 4.3, and for the thick strip TB-147 (2005), opening page: what was read there
// is held as published, with the number printed.
const parameters = loadedWheelSandAdhesion.editions[0]?.parameters ?? {}
const batching = batch.editions[0]?.parameters ?? {}

test.each([
  ['cure-temperature', '60', '°C'],
  ['cure-temperature-tolerance', '3', '°C'],
  ['cure-earliest', '12', 'h'],
  ['wheel-load', '125', 'lb'],
  ['wheel-load-tolerance', '1', 'lb'],
  ['mould-excess-least', '25', '%'],
  ['mould-excess-most', '35', '%'],
  ['emulsion-to-casting', '30', 's'],
])('loaded wheel, %s is %s %s', (key, value, unit) => {
  expect(parameters[key]).toMatchObject({ value, unit, certainty: 'published', source: 'ISSA TB-109 (2018)' })
})

test('the cure of a strip has no upper end', () => {
  const cure = loadedWheelSandAdhesion.windows.find(({ key }) => key === 'cure')
  expect(cure).toMatchObject({ earliestParameter: 'cure-earliest' })
  expect(cure?.latestParameter).toBeUndefined()
})

test('a strip takes 300 g of aggregate in the 6.4 mm mould and 500 g in the 12.7 mm mould', () => {
  expect(batching['strip-aggregate']).toMatchObject({ value: '300', unit: 'g', source: 'ISSA TB-109 (2018)' })
  expect(batching['strip-aggregate-thick']).toMatchObject({ value: '500', unit: 'g', source: 'ISSA TB-147 (2005)' })
})
