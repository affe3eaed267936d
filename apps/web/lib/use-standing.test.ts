import { expect, test } from 'vitest'
import { ApiProblem } from './api-problem.ts'
import { toldStanding } from './use-standing.ts'

const refused = (code: string, extra: Record<string, unknown>) =>
  new ApiProblem(code, 409, 'Refused', 'Somebody was quicker.', [], extra)

test('a conflict tells what stands now, also that nothing does', () => {
  const stored = { id: 'b', typed: '62.8' }
  expect(toldStanding(refused('conflict', { stored, sent: { id: 'c' } }))).toBe(stored)
  expect(toldStanding(refused('conflict', { stored: null, sent: { id: 'c' } }))).toBeNull()
})

test('any other refusal tells nothing of it, and neither does a lost answer', () => {
  for (const error of [
    undefined,
    new Error('network'),
    refused('conflict', {}),
    refused('invalid-input', { stored: { id: 'b' } }),
  ])
    expect(toldStanding(error)).toBeUndefined()
})
