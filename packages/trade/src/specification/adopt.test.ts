import { expect, test } from 'vitest'
import { adoptSpecification, variantOf, type Adoption } from './adopt.ts'
import { builtInSpecifications } from './built-in.ts'
import type { BuiltInSpecification } from './specification.ts'

function builtIn(key: string): BuiltInSpecification {
  const found = builtInSpecifications.find((each) => each.key === key)
  if (!found) throw new Error(`No built-in specification ${key}.`)
  return found
}
const a143 = builtIn('issa-a143-2010')
const a105 = builtIn('issa-a105')
const plain: Adoption = { name: 'Marrowdale', aggregateType: 'Type II', traffic: 'heavy', changes: [] }

function adopt(change: Partial<Adoption>) {
  const outcome = adoptSpecification(a143, { ...plain, ...change })
  if (!outcome.ok) throw new Error(outcome.problems.map(({ sentence }) => sentence).join(' '))
  return outcome.specification
}

function codes(change: Partial<Adoption>) {
  const outcome = adoptSpecification(a143, { ...plain, ...change })
  return outcome.ok ? [] : outcome.problems.map(({ code, path }) => `${code} ${path}`)
}

const limitOf = (specification: ReturnType<typeof adopt>, key: string) =>
  specification.limits.find((limit) => limit.key === key)

test('adopted unchanged, a specification is the guideline’s values for its type and traffic', () => {
  const specification = adopt({ traffic: 'medium' })
  expect(limitOf(specification, 'sand-adhesion')).toMatchObject({ value: '646', usValue: '60', traffic: 'medium' })
  expect(specification.limits.filter(({ key }) => key === 'sand-adhesion')).toHaveLength(1)
  expect(specification.limits.every(({ changedFrom }) => changedFrom === null)).toBe(true)
  expect(specification.residualBand).toMatchObject({ from: '5.5', to: '10.5' })
  expect(JSON.parse(JSON.stringify(specification))).toEqual(specification)
})

test('a contract’s change is marked and keeps the built-in value beside it', () => {
  const changes = [{ limitKey: 'abrasion-loss-1-hour', value: '500', reason: 'contract, clause 4.2' }]
  const band = { from: '6.5', to: '10.5', reason: 'contract, clause 4.3' }
  const specification = adopt({ changes, residualBand: band })
  expect(limitOf(specification, 'abrasion-loss-1-hour')).toMatchObject({
    value: '500',
    unit: 'g/m²',
    usValue: null,
    source: 'contract, clause 4.2',
    certainty: 'by contract',
    changedFrom: { value: '538', unit: 'g/m²' },
    changeReason: 'contract, clause 4.2',
  })
  expect(limitOf(specification, 'abrasion-loss-6-day')).toMatchObject({ changedFrom: null, certainty: 'from memory' })
  expect(specification.residualBand).toMatchObject({
    from: '6.5',
    certainty: 'by contract',
    changedFrom: { from: '5.5', to: '10.5' },
  })
  expect(limitOf(adopt({}), 'abrasion-loss-1-hour')?.value).toBe('538')
})

test('a contract may state a limit in US units, take it away, or name a rounding rule', () => {
  const inFeet = adopt({ changes: [{ limitKey: 'sand-adhesion', value: '50', unit: 'g/ft²', reason: 'contract' }] })
  expect(limitOf(inFeet, 'sand-adhesion')).toMatchObject({
    value: '50',
    unit: 'g/ft²',
    changedFrom: { value: '538', unit: 'g/m²' },
  })
  const without = adopt({ changes: [{ limitKey: 'compatibility', value: null, reason: 'contract' }] })
  expect(limitOf(without, 'compatibility')).toMatchObject({ value: null, changedFrom: { value: '11' } })
  expect(adopt({ rounding: 'half-even' }).limits.every(({ rounding }) => rounding === 'half-even')).toBe(true)
})

test('what cannot be adopted is refused with its place', () => {
  expect(codes({ aggregateType: 'Type I' })).toEqual(['unknown-type aggregateType'])
  expect(codes({ changes: [{ limitKey: 'colour', value: '1', reason: 'contract' }] })).toEqual([
    'unknown-limit changes.0.limitKey',
  ])
  const twice = { limitKey: 'mix-time', value: '12O', reason: 'contract' }
  expect(codes({ changes: [twice, { ...twice, value: '130' }] })).toEqual([
    'not-a-number changes.0.value',
    'duplicate-change changes.1.limitKey',
  ])
  expect(codes({ residualBand: { from: '8', to: '8', reason: 'contract' } })).toEqual(['band-reversed residualBand'])
  expect(codes({ residualBand: { from: 'x', to: null, reason: 'contract' } })).toEqual(['not-a-number residualBand'])
})

test('an adopted copy takes the gradation and what is told beside the limits for its type alone', () => {
  const specification = adopt({ aggregateType: 'Type III' })
  expect(specification.gradationBand?.sieves.map(({ from, to }) => `${from}-${to}`)).toEqual([
    '100-100',
    '70-90',
    '45-70',
    '28-50',
    '19-34',
    '12-25',
    '7-18',
    '5-15',
  ])
  expect(specification.information?.filter(({ label }) => label === 'Rate of application')).toHaveLength(1)
  expect(JSON.stringify(specification)).not.toContain('"types"')
})

test('a limit with two ends is changed at both, and one that is declared not at all', () => {
  const penetration = { limitKey: 'residue-penetration', value: '60', upper: '120', reason: 'contract, cold region' }
  expect(limitOf(adopt({ changes: [penetration] }), 'residue-penetration')).toMatchObject({
    value: '60',
    upper: '120',
    changedFrom: { value: '40', upper: '90' },
  })
  expect(codes({ changes: [{ ...penetration, upper: null }] })).toEqual(['not-a-number changes.0.upper'])
  expect(codes({ changes: [{ ...penetration, upper: '60' }] })).toEqual(['band-reversed changes.0.upper'])
  const wearing = { limitKey: 'wearing', value: '500', reason: 'contract' }
  const outcome = adoptSpecification(builtIn('en-12273-2008'), {
    ...plain,
    aggregateType: 'as declared',
    changes: [wearing],
  })
  expect(outcome).toMatchObject({ ok: false, problems: [{ code: 'declared', path: 'changes.0.value' }] })
})

test('the panels are those of the guidelines, each limit with source, mark and rule', () => {
  const keys = (specification: BuiltInSpecification, type: string) =>
    variantOf(specification, type, 'heavy')?.limits.map(({ key }) => key)
  expect(keys(a143, 'Type III')).toEqual([
    'abrasion-loss-1-hour',
    'abrasion-loss-6-day',
    'sand-adhesion',
    'mix-time',
    'cohesion-30-min',
    'cohesion-60-min',
    'wet-stripping',
    'compatibility',
    'lateral-displacement',
    'specific-gravity',
    'sand-equivalent',
    'soundness',
    'los-angeles-abrasion',
    'crushed-particles',
    'emulsion-residue',
    'polymer-solids',
    'residue-softening-point',
    'residue-penetration',
  ])
  expect(keys(a105, 'Type I')).toEqual([
    'abrasion-loss-1-hour',
    'mix-time',
    'cohesion-30-min',
    'cohesion-60-min',
    'wet-stripping',
    'sand-adhesion',
    'sand-equivalent',
    'soundness',
    'los-angeles-abrasion',
    'crushed-particles',
    'emulsion-residue',
    'residue-penetration',
  ])
  expect(variantOf(a105, 'Type I', 'light')?.limits.map(({ key }) => key)).not.toContain('sand-adhesion')
  for (const { limits } of builtInSpecifications)
    for (const limit of limits) {
      expect(limit.source).not.toBe('')
      expect(limit.certainty === 'from memory').toBe(limit.source.includes('from memory'))
      expect([limit.rounding, limit.decisionRule]).toEqual(['none', 'simple acceptance'])
    }
})

test('limits of mass per area are held in g/m², the US figure beside', () => {
  const held = builtInSpecifications.flatMap(({ limits }) => limits).filter(({ usUnit }) => usUnit === 'g/ft²')
  expect(held.map(({ value, unit, usValue, usUnit }) => `${value} ${unit} = ${usValue} ${usUnit}`)).toEqual([
    '538 g/m² = 50 g/ft²',
    '807 g/m² = 75 g/ft²',
    '538 g/m² = 50 g/ft²',
    '646 g/m² = 60 g/ft²',
    '753 g/m² = 70 g/ft²',
    '807 g/m² = 75 g/ft²',
    '538 g/m² = 50 g/ft²',
  ])
})
