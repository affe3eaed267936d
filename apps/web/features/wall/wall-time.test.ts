import { describe, expect, test } from 'vitest'
import { freshnessOf, goesOn, spanOf } from './wall-time.ts'

const minute = 60_000

describe('a span on the wall', () => {
  test('is said in the units that are read across a room', () => {
    expect(spanOf(59_999)).toEqual({ unit: 'moment', large: 0, small: '' })
    expect(spanOf(minute)).toEqual({ unit: 'minutes', large: 1, small: '' })
    expect(spanOf(59 * minute + 59_000)).toEqual({ unit: 'minutes', large: 59, small: '' })
    expect(spanOf(65 * minute)).toEqual({ unit: 'hours', large: 1, small: '05' })
    expect(spanOf(48 * 60 * minute)).toEqual({ unit: 'days', large: 2, small: '0' })
    expect(spanOf(-12 * minute)).toEqual(spanOf(12 * minute))
  })
})

describe('what stands on the wall', () => {
  const asOf = '2026-03-05T14:02:00.000Z'
  const after = (ms: number) => Date.parse(asOf) + ms
  test('is fresh while looks come, and lost once one fails or none comes', () => {
    expect(freshnessOf(asOf, after(30_000), false)).toBe('fresh')
    expect(freshnessOf(asOf, after(30_000), true)).toBe('lost')
    expect(freshnessOf(asOf, after(90_000), false)).toBe('fresh')
    expect(freshnessOf(asOf, after(90_001), false)).toBe('lost')
  })
  test('is old after five minutes, whatever the looks say', () => {
    expect(freshnessOf(asOf, after(5 * minute), true)).toBe('lost')
    expect(freshnessOf(asOf, after(5 * minute + 1), false)).toBe('old')
  })
  test('says that a step goes on for two hours after its last record', () => {
    expect(goesOn(asOf, after(120 * minute))).toBe(true)
    expect(goesOn(asOf, after(120 * minute + 1))).toBe(false)
  })
})
