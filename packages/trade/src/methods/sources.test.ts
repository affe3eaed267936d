import { describe, expect, test } from 'vitest'
import { builtInSpecifications } from '../specification/built-in.ts'
import { builtInMethods } from './catalogue.ts'
import { practiceSource } from './edition-parameter.ts'
import { areaFactorClasses, wetTrackAbrasion1h } from './wet-track-abrasion.ts'

const address = /https?:|www\.|\.(com|org|pdf)\b/i
const certainties = ['published', 'common practice', 'from memory']

/** A source names a document or says that there is none; it is no address on a network. */
function expectSource({ source, certainty }: { source: string; certainty?: string }, what: string): void {
  expect(source.trim(), what).not.toBe('')
  expect(source, what).not.toMatch(address)
  if (certainty === undefined) return
  expect(certainties, what).toContain(certainty)
  if (certainty === 'common practice') expect(source, what).toBe(practiceSource)
}

describe.each(builtInMethods.map((method) => [method.key, method] as const))('%s', (_, method) => {
  const parametersOf = method.editions.map(({ key, parameters }) => [key, parameters] as const)

  test('has an edition whose every bound has a value, a unit and a source', () => {
    expect(parametersOf.length).toBeGreaterThan(0)
    for (const [edition, parameters] of parametersOf)
      for (const [key, parameter] of Object.entries(parameters)) {
        const what = `${edition}, ${key}`
        expectSource(parameter, what)
        expect(parameter.value, what).toMatch(/^[+-]?\d+(\.\d+)?$/)
        expect(parameter.unit, what).not.toBe('')
        expect(parameter.label, what).not.toBe('')
      }
  })

  test('takes every window, condition, run time and tolerance from its edition', () => {
    const named = [
      ...method.windows.flatMap(({ earliestParameter, latestParameter }) => [earliestParameter, latestParameter]),
      ...method.steps.flatMap(({ conditions, runSecondsParameter, runCycles, readings }) => [
        runSecondsParameter,
        runCycles?.totalParameter,
        runCycles?.perMinuteParameter,
        ...conditions.flatMap(({ targetParameter, toleranceParameter }) => [targetParameter, toleranceParameter]),
        ...readings.map(({ target }) => target?.toleranceParameter),
      ]),
    ].filter((key) => key !== undefined)
    for (const [edition, parameters] of parametersOf)
      for (const key of named) expect(parameters[key], `${edition}, ${key}`).toBeDefined()
    for (const window of method.windows)
      expect(window.earliestParameter ?? window.latestParameter, window.key).toBeDefined()
  })

  test('asks about an odd reading by a span that has a source', () => {
    for (const { plausible } of method.steps.flatMap(({ readings }) => readings))
      if (plausible) expectSource(plausible, method.key)
    if (method.pair) expectSource(method.pair.plausible, `${method.key}, difference`)
  })
})

test('every factor of a machine class stands in the edition, with its source', () => {
  const { parameters } = wetTrackAbrasion1h.editions[0]!
  for (const { key, runSecondsParameter, factorParameters } of areaFactorClasses)
    for (const parameter of [runSecondsParameter, ...Object.values(factorParameters)])
      expectSource(parameters[parameter]!, `${key}, ${parameter}`)
})

test('every limit and band of the built-in guidelines has a source, and what is published elsewhere names where', () => {
  for (const { key, source, limits, residualBands } of builtInSpecifications) {
    expectSource({ source }, key)
    for (const limit of limits) {
      expectSource({ source: limit.source }, `${key}, ${limit.key}`)
      expect(certainties).toContain(limit.certainty)
      if (limit.value !== null) expect(limit.value, limit.key).toMatch(/^\d+(\.\d+)?$/)
      for (const also of limit.alsoPublished) expectSource(also, `${key}, ${limit.key}`)
    }
    for (const [type, residualBand] of Object.entries(residualBands)) expectSource(residualBand, `${key}, ${type}`)
  }
})
