import { describe, expect, test } from 'vitest'
import { ApiProblem } from '#lib/api-problem.ts'
import { differencesOf, storedMeanwhile } from './project-conflict.ts'

const stored = { name: 'North road', reportTo: 'The county', copiesTo: '' }

describe('two people editing a project (ux A40)', () => {
  test('only a refusal because of another edit carries what stands now', () => {
    const refused = new ApiProblem('changed-meanwhile', 412, 'Changed', '', [], { stored })
    expect(storedMeanwhile(refused)).toBe(stored)
    expect(storedMeanwhile(new ApiProblem('invalid-input', 400, 'Refused', '', [], { stored }))).toBeUndefined()
    expect(storedMeanwhile(null)).toBeUndefined()
  })
  test('both texts of each field that differs are shown, and no other', () => {
    expect(differencesOf(stored, { name: 'North road, lot 2', reportTo: 'The county' })).toEqual([
      { field: 'name', stored: 'North road', typed: 'North road, lot 2' },
    ])
    expect(differencesOf(stored, stored)).toEqual([])
  })
})
