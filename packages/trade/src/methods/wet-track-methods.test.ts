import { expect, test } from 'vitest'
import type { MethodDeclaration, ObservedReading } from '../procedure/declaration.ts'
import {
  cohesionAbrasion1h as cohesionAbrasion,
  cohesionAbrasion30min,
  cohesionAbrasion3h,
} from './cohesion-abrasion.ts'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from './wet-track-abrasion.ts'
import { wetTrackAbrasion3d } from './wet-track-abrasion-3d.ts'
import { wetTrackAbrasionEn } from './wet-track-abrasion-en.ts'

const weighed = (before: string, after: string): ObservedReading[] =>
  [before, after].map((value, index) => {
    const step = index === 0 ? 'weigh-before' : 'weigh-after'
    return { id: step, step, key: 'mass', repeat: 1, value, unit: 'g' }
  })
const factors = [{ id: 'f', value: '32.9', unit: 'g/m²', source: 'test' }]
const evaluate = (method: MethodDeclaration, readings: ObservedReading[], edition = 0) =>
  method.evaluate(readings, { parameters: method.editions[edition]!.parameters, factors, inputs: {} })

test.each([wetTrackAbrasion1h, wetTrackAbrasion6d, wetTrackAbrasion3d, wetTrackAbrasionEn])(
  '$key: 18.8 g lost on a machine of 32.9 g/m² for each gram are 618.52 g/m²',
  (method) => {
    const { results } = evaluate(method, weighed('759.5', '740.7'))
    expect(results.map(({ key, value, unit }) => [key, value, unit])).toEqual([
      ['loss', '18.8', 'g'],
      ['loss-per-area', '618.52', 'g/m²'],
    ])
    expect(evaluate(method, weighed('740.7', '759.5')).refusals.map(({ code }) => code)).toEqual(['gain', 'gain'])
  },
)

test('each soak has its own window, and each limit finds its own method', () => {
  const windows = [wetTrackAbrasion1h, wetTrackAbrasion3d, wetTrackAbrasion6d, wetTrackAbrasionEn].map((method) => {
    const { 'soak-earliest': from, 'soak-latest': to } = method.editions[0]!.parameters
    return [method.answers[0], `${from!.value} ${from!.unit}`, `${to!.value} ${to!.unit}`]
  })
  const answer = (property: string, soak: string) => ({ property, soak, result: 'loss-per-area' })
  expect(windows).toEqual([
    [answer('abrasion-loss', '1-hour'), '60 min', '75 min'],
    [answer('abrasion-loss', '3-day'), '72 h', '74 h'],
    [answer('abrasion-loss', '6-day'), '144 h', '146 h'],
    [{ property: 'wearing', result: 'loss-per-area' }, '60 min', '75 min'],
  ])
})

// Abrasion head and hose: ISSA TB-100, from memory, unverified; the sizes belong to an edition as the factor does.
test('head, hose and pan stand in every edition, in the European one as practice alone', () => {
  const of = (method: MethodDeclaration, key: string) => {
    const { value, unit, certainty } = method.editions[0]!.parameters[key]!
    return `${value} ${unit}, ${certainty}`
  }
  const keys = ['head-mass', 'hose-bore', 'hose-wall', 'hose-length', 'pan-diameter', 'pan-wall']
  expect(keys.map((key) => of(wetTrackAbrasion1h, key))).toEqual([
    '2.27 kg, from memory',
    '19 mm, from memory',
    '6.35 mm, from memory',
    '127 mm, from memory',
    '330 mm, from memory',
    '51 mm, from memory',
  ])
  for (const key of keys) expect(of(wetTrackAbrasionEn, key)).toMatch(/common practice$/)
  expect(of(wetTrackAbrasion1h, 'balance-step')).toBe('0.1 g, common practice')
  expect(of(wetTrackAbrasion3d, 'soak-earliest')).toBe('72 h, published')
})

test('a loss of half a gram after one hour, and of a gram after six days, is asked about', () => {
  expect(wetTrackAbrasion1h.pair?.plausible).toMatchObject({ from: '0.6', to: '45' })
  expect(wetTrackAbrasion6d.pair?.plausible).toMatchObject({ from: '1.1', to: '60' })
})

test('EN 12274-5 has two editions and no table of classes: the factor is the machine’s', () => {
  expect(wetTrackAbrasionEn.editions.map(({ designation, year }) => `${designation}:${year}`)).toEqual([
    'EN 12274-5:2003',
    'EN 12274-5:2018',
  ])
  for (const { parameters } of wetTrackAbrasionEn.editions) {
    expect(Object.keys(parameters).filter((key) => key.startsWith('class-'))).toEqual([])
    expect(parameters['run-seconds']).toMatchObject({ value: '300', unit: 's' })
    for (const { certainty } of Object.values(parameters)) expect(certainty).not.toBe('published')
  }
})

const curedAt = (temperature: string, humidity: string): ObservedReading[] =>
  Object.entries({ temperature, humidity }).map(([key, value]) => ({ id: key, step: 'cure', key, repeat: 1, value }))
const cured = curedAt('25.0', '50')
test.each([
  ['1600.0', '1500.1', '99.9', 'high'],
  ['1600.0', '1500.0', '100', 'average'],
  ['1600.0', '1300.0', '300', 'average'],
  ['1600.0', '1299.9', '300.1', 'between'],
  ['1600.0', '1200.1', '399.9', 'between'],
  ['1600.0', '1200.0', '400', 'not-resisting'],
])('cohesion abrasion: %s to %s g lost %s g, class %s', (before, after, loss, choice) => {
  const { results, choices } = evaluate(cohesionAbrasion, [...cured, ...weighed(before, after)])
  expect(results).toMatchObject([{ key: 'loss', value: loss, unit: 'g' }])
  expect(choices).toMatchObject([{ key: 'cohesion-class', choice }])
})

test('cohesion abrasion: a specimen that got heavier has neither loss nor class', () => {
  const { results, choices, refusals } = evaluate(cohesionAbrasion, [...cured, ...weighed('1500', '1510')])
  expect([results, choices]).toEqual([[], undefined])
  expect(refusals.map(({ key, code }) => `${key} ${code}`)).toEqual(['loss gain', 'cohesion-class gain'])
})

test('cohesion abrasion: each cure answers a property of its own, and another cure gives no number', () => {
  const properties = [cohesionAbrasion30min, cohesionAbrasion, cohesionAbrasion3h].map(
    ({ answers }) => answers[0]!.property,
  )
  expect(new Set(properties).size).toBe(3)
  for (const other of [curedAt('35.0', '50'), curedAt('25.0', '90')]) {
    const { results, refusals } = evaluate(cohesionAbrasion, [...other, ...weighed('1600', '1400')])
    expect(results).toEqual([])
    expect(refusals.map(({ key, code }) => `${key} ${code}`)).toEqual([
      'loss outside-conditions',
      'cohesion-class outside-conditions',
    ])
  }
})
