import type { BuiltInSpecification, Limit } from '@curebook/contract/specifications'
import { describe, expect, test } from 'vitest'
import { knownProperties } from './known-properties.ts'

const limit = (property: string, label: string, more: Partial<Limit> = {}) =>
  ({ property, label, soak: null, unit: 's', method: 'ISSA TB-113', group: 'mix', sense: 'min', ...more }) as Limit
const holding = (...limits: readonly Limit[]) => ({ variants: [{ limits }] }) as unknown as BuiltInSpecification

describe('the properties that a new limit may be of', () => {
  const known = knownProperties([
    holding(limit('mix-time', 'Mix time', { value: '120' }), limit('sand-adhesion', 'Sand adhesion', { unit: 'g/m²' })),
    holding(limit('mix-time', 'Mix time'), limit('mix-time', 'Mixing time', { sense: 'declared' })),
    holding(
      limit('abrasion-loss', 'Abrasion loss, 6-day soak', { soak: '6-day' }),
      limit('abrasion-loss', 'Abrasion loss, 1-hour soak', { soak: '1-hour' }),
    ),
  ])
  test('stand once each, by name; one soak is not the other', () => {
    expect(known.map(({ key, start }) => [key, start.label])).toEqual([
      ['abrasion-loss 1-hour', 'Abrasion loss, 1-hour soak'],
      ['abrasion-loss 6-day', 'Abrasion loss, 6-day soak'],
      ['mix-time', 'Mix time'],
      ['sand-adhesion', 'Sand adhesion'],
    ])
  })
  test('bring their unit, test and sense, and no number of another document', () => {
    expect(known.find(({ key }) => key === 'mix-time')?.start).toMatchObject({
      ...{ property: 'mix-time', soak: null, unit: 's', method: 'ISSA TB-113', sense: 'min', group: 'mix' },
      ...{ value: null, upper: null, condition: null, source: '', certainty: 'by contract' },
    })
  })
})
