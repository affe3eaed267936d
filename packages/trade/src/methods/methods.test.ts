import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { EvaluationSetup, MethodDeclaration, ObservedReading } from '../procedure/declaration.ts'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import { isUnit } from '../quantity/unit-table.ts'
import { practiceSource } from './edition-parameter.ts'
import { batch } from './batch.ts'
import { builtInMethods, methodByKey } from './catalogue.ts'

const factors = [
  { id: 'f1', value: '32.9', unit: 'g/m²', source: 'test' },
  { id: 'f2', value: '3.06', unit: 'g/ft²', source: 'test' },
]
const inputs = {
  moisture: { id: 'm', value: '0.0', unit: '%', source: 'test' },
  residue: { id: 'r', value: '62.6', unit: '%', source: 'test' },
}
const setupFor = (method: MethodDeclaration): EvaluationSetup => ({
  parameters: method.editions[0]!.parameters,
  factors: method.machine ? factors : [],
  inputs,
})

const digits = fc
  .tuple(fc.integer({ min: -2_000_000, max: 2_000_000 }), fc.integer({ min: 0, max: 3 }))
  .map(([whole, places]) => (whole / 10 ** places).toFixed(places))

/** Every required reading of a method, each with any number at all, or one of its choices. */
function readingsFor(method: MethodDeclaration) {
  const slots = method.steps.flatMap((step) =>
    step.readings
      .filter(({ optional }) => !optional)
      .flatMap(({ key, unit, choices, repeats = 1 }) =>
        Array.from({ length: repeats }, (_, index) => ({ step: step.key, key, unit, choices, repeat: index + 1 })),
      ),
  )
  const valueOf = ({ choices }: (typeof slots)[number]) =>
    choices ? fc.constantFrom(...choices.map(({ key }) => key)) : digits
  return fc.tuple(...slots.map(valueOf)).map((values) =>
    slots.map(({ step, key, unit, repeat }, index): ObservedReading => ({
      step,
      key,
      ...(unit === undefined ? {} : { unit }),
      repeat,
      id: `r${index}`,
      value: values[index]!,
    })),
  )
}

describe.each(builtInMethods.map((method) => ({ key: method.key, method })))('$key', ({ method }) => {
  test('the order of readings does not change a result', () => {
    fc.assert(
      fc.property(
        readingsFor(method).chain((readings) =>
          fc.tuple(fc.constant(readings), fc.shuffledSubarray(readings, { minLength: readings.length })),
        ),
        ([readings, shuffled]) => {
          expect(method.evaluate(shuffled, setupFor(method))).toEqual(method.evaluate(readings, setupFor(method)))
        },
      ),
    )
  })

  test('any numbers at all give finite digits with a working that holds, or a refusal with a sentence', () => {
    fc.assert(
      fc.property(readingsFor(method), (readings) => {
        const { results, choices = [], refusals, missing } = method.evaluate(readings, setupFor(method))
        expect(missing).toEqual([])
        expect(results.length + choices.length + refusals.length).toBeGreaterThan(0)
        for (const result of results) {
          expect(result.value).toMatch(/^-?[0-9]+(\.[0-9]+)?$/)
          expect(checkCalculation(result.calculation, result.value)).toEqual([])
        }
        for (const refusal of refusals) expect(refusal.text.length).toBeGreaterThan(10)
      }),
    )
  })

  test('while a required reading is missing nothing is computed and the reading is named', () => {
    fc.assert(
      fc.property(readingsFor(method), fc.nat(), (readings, pick) => {
        const gone = readings[pick % readings.length] as ObservedReading
        const rest = readings.filter((reading) => reading !== gone)
        expect(method.evaluate(rest, setupFor(method))).toEqual({
          results: [],
          refusals: [],
          missing: [`${gone.step}/${gone.key}/${gone.repeat}`],
        })
      }),
    )
  })

  test('every parameter names its source, and its certainty says the same', () => {
    for (const parameter of method.editions.flatMap(({ parameters }) => Object.values(parameters))) {
      expect(isUnit(parameter.unit)).toBe(true)
      if (parameter.certainty === 'common practice') expect(parameter.source).toBe(practiceSource)
      if (parameter.certainty === 'from memory') expect(parameter.source).toMatch(/, from memory, unverified$/)
      if (parameter.certainty === 'published') expect(parameter.source).toMatch(/\(\d{4}\)$|; year not seen$/)
    }
  })

  test('every parameter, step and reading that the declaration names is there', () => {
    const steps = new Set(method.steps.map(({ key }) => key))
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
    for (const { parameters } of method.editions) for (const key of named) expect(parameters).toHaveProperty([key])
    expect(steps.size).toBe(method.steps.length)
    for (const { step, after } of method.windows) expect([...steps]).toEqual(expect.arrayContaining([step, after.step]))
    for (const { needs = [] } of method.steps) for (const key of needs) expect(steps.has(key)).toBe(true)
    const ofBatch = batch.steps.flatMap(({ readings }) => readings.map(({ key }) => key))
    const { step, keys = [] } = method.batchReadings ?? {}
    if (step !== undefined) expect(steps.has(step)).toBe(true)
    expect(ofBatch).toEqual(expect.arrayContaining([...keys]))
    // What comes with the batch is not asked for again.
    for (const { key } of method.steps.find((one) => one.key === step)?.readings ?? []) expect(keys).not.toContain(key)
  })
})

test('a method is found by its key, and an unknown key is no method', () => {
  expect(methodByKey(builtInMethods, 'batch')?.form).toBe('batch')
  expect(methodByKey(builtInMethods, 'wet-track')).toBeUndefined()
})

test('a machine with two factors gives two results, each with its own factor', () => {
  const method = methodByKey(builtInMethods, 'wet-track-abrasion-1h') as MethodDeclaration
  const readings = ['759.5', '740.7'].map((value, index): ObservedReading => {
    const step = index === 0 ? 'weigh-before' : 'weigh-after'
    return { id: step, step, key: 'mass', repeat: 1, value, unit: 'g' }
  })
  const { results } = method.evaluate(readings, setupFor(method))
  expect(results.map(({ key, value, unit }) => [key, value, unit])).toEqual([
    ['loss', '18.8', 'g'],
    ['loss-per-area', '618.52', 'g/m²'],
    ['loss-per-area', '57.528', 'g/ft²'],
  ])
  const swapped = method.evaluate([readings[0]!, { ...readings[1]!, value: '762.6' }], setupFor(method))
  expect(swapped.refusals[0]).toEqual({
    key: 'loss',
    code: 'gain',
    text: 'Gain of 3.1 g: still wet, or not this disc? Dry on and weigh again.',
    detail: { gain: '3.1 g', W1: '759.5 g', W2: '762.6 g' },
  })
})
