import { expect, test } from 'vitest'
import { acceptableRange } from '../design/acceptable-range.ts'
import { decimal } from '../quantity/decimal.ts'
import { builtInMethods } from '../methods/catalogue.ts'
import { builtInReferenceCases } from '../reference-cases/built-in.ts'
import { variantOf } from './adopt.ts'
import { builtInSpecifications } from './built-in.ts'
import { answering, inLimitUnit } from './enterable.ts'
import { panels } from './panels.ts'

const variants = builtInSpecifications.flatMap((builtIn) =>
  Object.keys(builtIn.residualBands).flatMap((type) =>
    builtIn.traffics.map((traffic) => ({ builtIn, type, traffic, variant: variantOf(builtIn, type, traffic)! })),
  ),
)

test('every variant holds each limit once, with a source and a certainty', () => {
  for (const { builtIn, type, variant } of variants) {
    const keys = variant.limits.map(({ key }) => key)
    expect(new Set(keys).size, `${builtIn.key} ${type}`).toBe(keys.length)
    for (const { source, certainty, sense, value, upper } of variant.limits) {
      expect(source.trim()).not.toBe('')
      expect(certainty === 'from memory').toBe(source.includes('from memory'))
      if (sense === 'between') expect(decimal(value!).lt(upper!)).toBe(true)
      if (sense === 'declared') expect(value).toBeNull()
    }
    for (const { source } of variant.information) expect(source.trim()).not.toBe('')
  }
})

test('bands go from the widest sieve down, narrower sieves pass no more, and no edge lies above 100 %', () => {
  const bands = variants.flatMap(({ variant }) => variant.gradationBand ?? [])
  expect(bands.length).toBeGreaterThan(0)
  for (const { sieves, source } of bands) {
    expect(source.trim()).not.toBe('')
    sieves.forEach(({ size, from, to }, n) => {
      expect(decimal(from).lte(to) && decimal(to).lte(100)).toBe(true)
      const wider = sieves[n - 1]
      if (!wider) return
      expect(decimal(size).lt(wider.size)).toBe(true)
      expect(decimal(from).lte(wider.from) && decimal(to).lte(wider.to)).toBe(true)
    })
  }
})

// NCHRP Synthesis 411 (2010), table 18, has types II and III alone; UFC 3-250-03, in which type I was read, has none.
test('types II and III of the guidelines have stockpile tolerances; type I has none, for none was read', () => {
  const tolerances = (key: string) =>
    Object.entries(builtInSpecifications.find((each) => each.key === key)?.gradationBands ?? {}).map(
      ([type, { sieves }]) => `${type}: ${sieves.map(({ tolerance }) => tolerance ?? '-').join(' ')}`,
    )
  expect(tolerances('issa-a105')).toEqual([
    'Type I: - - - - - - - -',
    'Type II: - 5 5 5 5 4 3 2',
    'Type III: - 5 5 5 5 4 3 2',
  ])
  expect(tolerances('issa-a143-2010').map((told) => told.slice(0, 8))).toEqual(['Type II:', 'Type III'])
})

test('a limit stands in a unit that the methods which answer it give, or in one that converts', () => {
  const given = (method: (typeof builtInMethods)[number], result: string) => [
    ...method.results.flatMap(({ key, unit }) => (key === result && unit ? [unit] : [])),
    ...builtInReferenceCases
      .filter((file) => file.method === method.key)
      .flatMap(({ cases }) => cases.flatMap(({ expected }) => expected))
      .flatMap((one) => (one.key === result && 'unit' in one ? [one.unit] : [])),
  ]
  const answered = builtInSpecifications.flatMap(({ key, limits }) =>
    limits.flatMap((limit) =>
      answering(limit, builtInMethods).map(({ method, result }) => ({
        what: `${key} ${limit.key} by ${method.key}, in ${limit.unit}`,
        limit,
        given: given(method, result),
      })),
    ),
  )
  const numbers = answered.filter((one) => one.given.length > 0)
  expect(numbers.length).toBeGreaterThan(40)
  const apart = numbers.filter((one) => one.given.every((unit) => inLimitUnit('1', unit, one.limit.unit) === undefined))
  expect(apart.map(({ what, given: units }) => `${what}: ${[...new Set(units)].join('; ')}`)).toEqual([])
  const gravities = answered.filter(({ limit }) => limit.property === 'specific-gravity')
  expect(new Set(gravities.map(({ limit }) => limit.unit))).toEqual(new Set(['1']))
})

test('a specification without a curve has a range that says so', () => {
  const { sentence } = acceptableRange({
    curves: [],
    band: { from: null, to: null, source: 'none' },
    residuePercent: '62',
    sign: '.',
  })
  expect(sentence).not.toBe('')
})

test('the panels of the two practices name their bulletins, and each property once', () => {
  const numbers = (key: string) =>
    panels.find((panel) => panel.key === key)?.tests.map(({ designation }) => designation.replace('ISSA TB-', ''))
  expect(numbers('aashto-pp-83')).toEqual(['100', '109', '113', '114', '139', '144', '147'])
  expect(numbers('aashto-pp-87')).toEqual(['100', '106', '109', '113', '114', '139'])
  for (const { tests } of panels) {
    const asked = tests.flatMap(({ properties }) => properties.map(({ property, soak }) => `${property} ${soak}`))
    expect(new Set(asked).size).toBe(asked.length)
  }
})
