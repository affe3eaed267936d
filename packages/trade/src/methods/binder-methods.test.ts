import { describe, expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import type { MethodDeclaration, ObservedReading } from '../procedure/declaration.ts'
import { binderExtraction } from './binder-extraction.ts'
import { binderIgnition } from './binder-ignition.ts'

type Typed = Readonly<Record<string, string>>
const observed = (readings: Typed): ObservedReading[] =>
  Object.entries(readings).map(([slot, value]) => {
    const [step, key] = slot.split('/') as [string, string]
    return { id: slot, step, key, repeat: 1, value }
  })
const evaluate = (method: MethodDeclaration, readings: Typed) =>
  method.evaluate(observed(readings), { parameters: method.editions[0]!.parameters, factors: [], inputs: {} })
const valuesOf = (method: MethodDeclaration, readings: Typed) => {
  const { results } = evaluate(method, readings)
  for (const { calculation, value } of results) expect(checkCalculation(calculation, value)).toEqual([])
  return Object.fromEntries(results.map(({ key, unit, value }) => [`${key} ${unit}`, Number(value).toFixed(4)]))
}
const refusalsOf = (method: MethodDeclaration, readings: Typed) =>
  evaluate(method, readings).refusals.map(({ key, code }) => `${key} ${code}`)

const ignited: Typed = {
  'load/basket': '3000.0',
  'load/loaded': '4250.0',
  'weigh-burnt/burnt': '4160.0',
  'weigh-burnt/correction': '0.20',
  'weigh-burnt/filler': '1.0',
}

describe('ignition', () => {
  test('90.0 g of 1250.0 g burnt, less 0.20 %: 7.00 % of the mix, on three bases', () => {
    // 7 ÷ 93 × 100 = 7.5269 of aggregate and filler; × 1.01 = 7.6022 of dry aggregate at 1 % of filler.
    expect(valuesOf(binderIgnition, ignited)).toEqual({
      'loss-on-ignition %': '7.2000',
      'binder-content % of total dry mix': '7.0000',
      'binder-content % of dry aggregate and filler': '7.5269',
      'binder-content % of dry aggregate': '7.6022',
    })
  })

  test('moisture on both bases where its masses stand: 78 g of water in 1000 g is 7.80 % of wet, 8.46 % of dry', () => {
    const moist = { ...ignited, 'dry/wet-mass': '1000.0', 'dry/dry-mass': '922.0' }
    expect(valuesOf(binderIgnition, moist)).toMatchObject({
      'moisture-of-wet %': '7.8000',
      'moisture-of-dry %': '8.4599',
    })
    expect(refusalsOf(binderIgnition, { ...moist, 'dry/dry-mass': '1001.0' })).toEqual([
      'moisture-of-wet gain',
      'moisture-of-dry gain',
    ])
    expect(refusalsOf(binderIgnition, { ...ignited, 'dry/wet-mass': '1000.0' })).toEqual([
      'moisture-of-wet missing-reading',
      'moisture-of-dry missing-reading',
    ])
  })

  test('a correction below zero is taken off as it is', () => {
    expect(valuesOf(binderIgnition, { ...ignited, 'weigh-burnt/correction': '-0.10' })).toMatchObject({
      'binder-content % of total dry mix': '7.3000',
    })
  })

  test('a gain, a basket that is no heavier loaded, and a correction larger than the loss are refused', () => {
    expect(refusalsOf(binderIgnition, { ...ignited, 'weigh-burnt/burnt': '4251.0' })).toEqual([
      'loss-on-ignition gain',
      'binder-content gain',
    ])
    expect(refusalsOf(binderIgnition, { ...ignited, 'load/loaded': '3000.0' })).toEqual([
      'loss-on-ignition not-positive',
      'binder-content not-positive',
    ])
    expect(refusalsOf(binderIgnition, { ...ignited, 'weigh-burnt/correction': '7.2' })).toEqual([
      'binder-content inconsistent',
    ])
  })

  test('a portion smaller than the edition asks for is used, and said', () => {
    const small = { ...ignited, 'load/loaded': '4000.0', 'weigh-burnt/burnt': '3928.0' }
    const { results } = evaluate(binderIgnition, small)
    const [content] = results.filter(({ key }) => key === 'binder-content')
    expect(content).toMatchObject({
      value: '7',
      findings: ['The portion of 1000 g is less than the 1200 g that the edition asks for.'],
    })
  })
})

const extracted: Typed = {
  'weigh-sample/sample': '1000.0',
  'weigh-sample/filter': '12.500',
  'weigh-aggregate/aggregate': '922.0',
  'weigh-aggregate/filter': '14.500',
  'weigh-aggregate/filler': '0',
  'mineral-matter/way': 'ash',
  'mineral-matter/extract': '2400',
  'mineral-matter/aliquot': '100',
  'mineral-matter/ash': '0.250',
}

test('only ignition holds a repeatability, and only of % of the total dry mix', () => {
  const held = ({ results }: MethodDeclaration) => results.filter(({ repeatability }) => repeatability !== undefined)
  expect(held(binderIgnition).map(({ key, unit }) => [key, unit])).toEqual([['binder-content', '% of total dry mix']])
  expect(binderIgnition.editions[0]!.parameters['repeatability']).toMatchObject({ value: '0.426' })
  expect(held(binderExtraction)).toEqual([])
})

describe('solvent', () => {
  test('0.250 g of ash in 100 of 2400 mL is 6.0 g; with 2.0 g on the filter 7.00 % of 1000 g are binder', () => {
    expect(valuesOf(binderExtraction, extracted)).toEqual({
      'mineral-matter g': '6.0000',
      'binder-content % of total dry mix': '7.0000',
      'binder-content % of dry aggregate and filler': '7.5269',
      'binder-content % of dry aggregate': '7.5269',
    })
  })

  test('recovered fines count as weighed, and the volumes are not asked for', () => {
    const recovered: Typed = { ...extracted, 'mineral-matter/way': 'recovered', 'mineral-matter/fines': '6.0' }
    const { 'mineral-matter/ash': _, 'mineral-matter/extract': __, 'mineral-matter/aliquot': ___, ...rest } = recovered
    expect(valuesOf(binderExtraction, rest)).toMatchObject({ 'binder-content % of total dry mix': '7.0000' })
  })

  test('what the chosen way needs is asked for, never taken to be nothing', () => {
    const { 'mineral-matter/ash': _, ...rest } = extracted
    expect(refusalsOf(binderExtraction, rest)).toEqual([
      'mineral-matter missing-reading',
      'binder-content missing-reading',
    ])
  })

  test('an aliquot larger than the extract, a filter that got lighter, more stone than sample: refused', () => {
    expect(refusalsOf(binderExtraction, { ...extracted, 'mineral-matter/aliquot': '2401' })).toEqual([
      'mineral-matter inconsistent',
      'binder-content inconsistent',
    ])
    expect(refusalsOf(binderExtraction, { ...extracted, 'weigh-aggregate/filter': '12.4' })).toEqual([
      'binder-content loss',
    ])
    expect(refusalsOf(binderExtraction, { ...extracted, 'weigh-aggregate/aggregate': '993.0' })).toEqual([
      'binder-content inconsistent',
    ])
  })
})
