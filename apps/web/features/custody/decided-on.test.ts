import { expect, test } from 'vitest'
import { ApiProblem } from '#lib/api-problem.ts'
import { toldMeanwhile } from './decided-on.ts'

const problem = (code: string, extra: Record<string, unknown>) => new ApiProblem(code, 409, 'Conflict', '', [], extra)

test('an act is decided on what the refusal told of, and on nothing that only the page has heard', () => {
  expect(toldMeanwhile(problem('conflict', { stored: 'event 2', sent: 'event 1' }))).toBe('event 2')
  expect(toldMeanwhile(problem('conflict', { stored: null, sent: 'event 1' }))).toBeNull()
  for (const other of [
    problem('conflict', { stored: { id: 'item' }, sent: {} }),
    problem('wrong-state', { stored: 'event 2' }),
    new Error('x'),
    null,
  ])
    expect(toldMeanwhile(other)).toBeUndefined()
})
