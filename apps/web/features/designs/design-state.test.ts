import { describe, expect, test } from 'vitest'
import { isNewest, mayChange, mayEnterResults, ofState } from './design-state.ts'

const revisions = [
  { id: 'a', number: 1, state: 'approved' as const },
  { id: 'b', number: 2, state: 'in-work' as const },
]

describe('what may change', () => {
  test('the newest revision changes in draft, in work and sent back', () => {
    for (const state of ['draft', 'in-work', 'sent-back'] as const)
      expect(mayChange({ state, revision: 2, revisions })).toBe(true)
  })
  test('a revision in review or approved does not', () => {
    expect(mayChange({ state: 'in-review', revision: 2, revisions })).toBe(false)
    expect(mayChange({ state: 'approved', revision: 2, revisions })).toBe(false)
  })
  test('results of the panel are entered in review too, until the approval', () => {
    for (const state of ['draft', 'in-work', 'sent-back', 'in-review'] as const)
      expect(mayEnterResults({ state, revision: 2, revisions })).toBe(true)
    expect(mayEnterResults({ state: 'approved', revision: 2, revisions })).toBe(false)
    expect(mayEnterResults({ state: 'in-work', revision: 1, revisions })).toBe(false)
  })
  test('an earlier revision never does', () => {
    expect(isNewest({ revision: 1, revisions })).toBe(false)
    expect(mayChange({ state: 'in-work', revision: 1, revisions })).toBe(false)
  })
})

test('a filter by state keeps the rows of that state, and all without one', () => {
  const rows = [{ state: 'draft' as const }, { state: 'approved' as const }]
  expect(ofState(rows, 'approved')).toEqual([{ state: 'approved' }])
  expect(ofState(rows, '')).toEqual(rows)
})
