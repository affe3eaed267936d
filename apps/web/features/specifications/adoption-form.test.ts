import type { BuiltInSpecification, Limit } from '@curebook/contract/specifications'
import { describe, expect, test } from 'vitest'
import { namedVariant, readAdoption, unitsOf } from './adoption-form.ts'

const limit = (key: string, unit: string) => ({ key, unit }) as Limit
const given = {
  id: 'id',
  builtInKey: 'issa-a143-2010',
  aggregateType: 'Type II',
  traffic: 'heavy',
  changed: [limit('abrasion-loss-1-hour', 'g/m²'), limit('mix-time', 's')],
  bandChanged: false,
}
const formOf = (fields: Record<string, string>) => {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}

describe('the form that adopts guideline values', () => {
  test('a change keeps its own unit only where the contract prints another one', () => {
    const form = formOf({
      name: ' As in the contract ',
      'changes.0.value': '45,5',
      'changes.0.unit': 'g/ft²',
      'changes.0.reason': 'Clause 4',
      'changes.1.value': '150 s',
      'changes.1.reason': 'Clause 5',
    })
    expect(readAdoption(form, given)).toEqual({
      id: 'id',
      builtInKey: 'issa-a143-2010',
      aggregateType: 'Type II',
      traffic: 'heavy',
      name: 'As in the contract',
      changes: [
        { limitKey: 'abrasion-loss-1-hour', value: '45.5', unit: 'g/ft²', reason: 'Clause 4' },
        { limitKey: 'mix-time', value: '150', reason: 'Clause 5' },
      ],
    })
  })
  test('a limit that is taken away is null, and an open edge of the band too', () => {
    const form = formOf({
      name: 'x',
      'changes.0.none': 'on',
      'changes.0.value': '538',
      'changes.0.reason': 'Not asked for',
      'residualBand.from': '6.0',
      'residualBand.reason': 'Clause 2',
      rounding: 'half-even',
    })
    const body = readAdoption(form, { ...given, changed: given.changed.slice(0, 1), bandChanged: true })
    expect(body.changes).toEqual([{ limitKey: 'abrasion-loss-1-hour', value: null, reason: 'Not asked for' }])
    expect(body).toMatchObject({ residualBand: { from: '6.0', to: null, reason: 'Clause 2' }, rounding: 'half-even' })
  })
  test('another unit is offered only for limits that are printed in two', () => {
    expect(unitsOf('g/m²')).toEqual(['g/m²', 'g/ft²'])
    expect(unitsOf('s')).toEqual(['s'])
  })
})

describe('the guideline values that an address names', () => {
  const traffics = ['heavy', 'light'] as const
  const aggregateTypes = ['Type II', 'Type III']
  const variants = aggregateTypes.flatMap((aggregateType) => traffics.map((traffic) => ({ aggregateType, traffic })))
  const builtIn = { aggregateTypes, traffics, variants } as unknown as BuiltInSpecification
  test('one part may be named alone, the other stays the first that is held', () => {
    expect(namedVariant(builtIn, { type: '', traffic: 'light' })).toEqual({
      aggregateType: 'Type II',
      traffic: 'light',
    })
    expect(namedVariant(builtIn, { type: 'Type III', traffic: 'none' })).toEqual({
      aggregateType: 'Type III',
      traffic: 'heavy',
    })
  })
})
