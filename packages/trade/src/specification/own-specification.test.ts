import { expect, test } from 'vitest'
import {
  faultsOfKeptSources,
  faultsOfWritten,
  type WrittenLimit,
  type WrittenSpecification,
} from './own-specification.ts'

const limit: WrittenLimit = {
  key: 'mix-time',
  property: 'mix-time',
  label: 'Mix time',
  soak: null,
  traffic: null,
  sense: 'min',
  value: '120',
  upper: null,
  unit: 's',
  rounding: 'none',
  decisionRule: 'simple acceptance',
  uncertainty: null,
  source: 'Contract 12',
  clause: null,
  method: null,
  group: 'mix',
  certainty: 'by contract',
  condition: null,
}
const U = { expanded: '10', coverageFactor: '2', source: 'own budget' }
const written = (more: Partial<WrittenSpecification>): WrittenSpecification => ({
  residualBand: { from: '5.5', to: '10.5', source: 'Contract 12', certainty: 'by contract' },
  gradationBand: null,
  limits: [limit],
  ...more,
})
const pathsOf = (more: Partial<WrittenSpecification>) => faultsOfWritten(written(more)).map(({ path }) => path)
const pathsOfLimit = (more: Partial<WrittenLimit>) => pathsOf({ limits: [{ ...limit, ...more }] })

test('what can stand has no fault', () => {
  expect(pathsOf({})).toEqual([])
  expect(pathsOf({ limits: [], residualBand: { from: null, to: null, source: 'x', certainty: 'published' } })).toEqual(
    [],
  )
  expect(pathsOfLimit({ sense: 'declared', value: null })).toEqual([])
  expect(pathsOfLimit({ sense: 'between', value: '40', upper: '90' })).toEqual([])
  expect(pathsOfLimit({ decisionRule: 'guard band', uncertainty: U })).toEqual([])
})

test('the ends of a limit are refused beside their field', () => {
  expect(pathsOfLimit({ value: '12O' })).toEqual(['limits.0.value'])
  expect(pathsOfLimit({ sense: 'declared' })).toEqual(['limits.0.value'])
  expect(pathsOfLimit({ sense: 'between', value: '40' })).toEqual(['limits.0.upper'])
  expect(pathsOfLimit({ sense: 'between', value: null, upper: '90' })).toEqual(['limits.0.value'])
  expect(pathsOfLimit({ sense: 'between', value: '90', upper: '90' })).toEqual(['limits.0.upper'])
  expect(pathsOfLimit({ upper: '200' })).toEqual(['limits.0.upper'])
})

test('a rule that takes an uncertainty has one, and the others none', () => {
  expect(pathsOfLimit({ uncertainty: U })).toEqual(['limits.0.decisionRule'])
  expect(pathsOfLimit({ decisionRule: 'non-binary' })).toEqual(['limits.0.uncertainty.expanded'])
  expect(pathsOfLimit({ decisionRule: 'non-binary', uncertainty: U, value: null })).toEqual(['limits.0.decisionRule'])
  expect(pathsOfLimit({ decisionRule: 'guard band', uncertainty: { ...U, expanded: '0' } })).toEqual([
    'limits.0.uncertainty.expanded',
  ])
  expect(pathsOfLimit({ decisionRule: 'guard band', uncertainty: { ...U, coverageFactor: 'two' } })).toEqual([
    'limits.0.uncertainty.coverageFactor',
  ])
  const narrow = { sense: 'between', value: '40', upper: '59', decisionRule: 'guard band', uncertainty: U } as const
  expect(pathsOfLimit(narrow)).toEqual(['limits.0.uncertainty.expanded'])
})

test('a property has one limit for each soak', () => {
  expect(pathsOf({ limits: [limit, limit] })).toEqual(['limits.1.key'])
  expect(pathsOf({ limits: [limit, { ...limit, key: 'other' }] })).toEqual(['limits.1.property'])
  expect(pathsOf({ limits: [limit, { ...limit, key: 'other', soak: '6-day' }] })).toEqual([])
})

test('bands are refused at the edge that is wrong', () => {
  const band = { source: 'x', certainty: 'published' } as const
  expect(pathsOf({ residualBand: { ...band, from: 'x', to: '8' } })).toEqual(['residualBand.from'])
  expect(pathsOf({ residualBand: { ...band, from: '8', to: '8' } })).toEqual(['residualBand.to'])
  const sieve = (size: string, from: string, to: string) => ({ size, label: size, from, to, tolerance: null })
  const sieves = (...rows: readonly ReturnType<typeof sieve>[]) => pathsOf({ gradationBand: { ...band, sieves: rows } })
  expect(sieves(sieve('9.5', '100', '100'), sieve('4.75', '90', '100'))).toEqual([])
  expect(sieves(sieve('0', '1', '2'))).toEqual(['gradationBand.sieves.0.size'])
  expect(sieves(sieve('9.5', '90', '101'))).toEqual(['gradationBand.sieves.0.to'])
  expect(sieves(sieve('9.5', '95', '90'))).toEqual(['gradationBand.sieves.0.from'])
  expect(sieves(sieve('4.75', '90', '100'), sieve('9.5', '80', '90'))).toEqual(['gradationBand.sieves.1.size'])
  expect(sieves(sieve('9.5', '80', '90'), sieve('4.75', '85', '90'))).toEqual(['gradationBand.sieves.1.from'])
})

test('a number that is changed names the document that asks for it', () => {
  const published = { ...limit, certainty: 'published', source: 'ISSA' } as const
  const before = {
    limits: [{ ...published, usValue: null, usUnit: null, alsoPublished: [], changedFrom: null, changeReason: null }],
  }
  const paths = (more: Partial<WrittenLimit>) =>
    faultsOfKeptSources(before, [{ ...published, ...more }]).map(({ path }) => path)
  expect(paths({})).toEqual([])
  expect(paths({ label: 'Time to mix' })).toEqual([])
  expect(paths({ value: '150' })).toEqual(['limits.0.source'])
  expect(paths({ value: '150', source: 'Contract 12' })).toEqual([])
  expect(paths({ value: '150', clause: '4.2' })).toEqual([])
})
