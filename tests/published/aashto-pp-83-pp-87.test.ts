import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { panels } from '@curebook/trade/specification/panels'
import { expect, test } from 'vitest'

// Source: AASHTO PP 83-16 (2016), micro surfacing design, with MP 28; AASHTO PP 87-17 (2017), slurry seal design, with MP 32:
// the test methods that each refers to. No figure of the four documents was read, so none is held.
test.each([
  ['aashto-pp-83', 'aashto-pp-83-mp-28', ['100', '109', '113', '114', '139', '144', '147']],
  ['aashto-pp-87', 'aashto-pp-87-mp-32', ['100', '106', '109', '113', '114', '139']],
])('%s: panel and specification name the bulletins that the practice refers to', (panelKey, key, bulletins) => {
  const panel = panels.find((each) => each.key === panelKey)
  expect(panel?.tests.map(({ designation }) => designation)).toEqual(bulletins.map((number) => `ISSA TB-${number}`))
  const limits = builtInSpecifications.find((each) => each.key === key)?.limits ?? []
  const named = [...new Set(limits.map(({ method }) => method))].toSorted()
  expect(named).toEqual(bulletins.map((number) => `ISSA TB-${number}`).toSorted())
  expect(limits.every(({ value }) => value === null)).toBe(true)
})
