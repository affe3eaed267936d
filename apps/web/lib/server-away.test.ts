import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { ApiProblem } from './api-problem.ts'
import { gateway, isAwayStatus, isServerAway } from './server-away.ts'

const problem = (status: number) => new ApiProblem('x', status, 'x', '')

test.each([0, 502, 503, 504])('an answer of %i is no answer of the server', (status) => {
  expect([isAwayStatus(status), isServerAway(problem(status))]).toEqual([true, true])
})
test.each([200, 400, 401, 403, 409, 425, 429, 500, 501])('%i is what the server says itself', (status) => {
  expect([isAwayStatus(status), isServerAway(problem(status))]).toEqual([false, false])
})
test('a fault of the page is not the server', () => {
  expect(isServerAway(new TypeError('undefined is not a function'))).toBe(false)
})
test('the worker, which stands outside the build, judges the same', () => {
  const script = readFileSync(new URL('../public/tablet-worker.js', import.meta.url), 'utf8')
  expect(JSON.parse(/^const GATEWAY = (\[.*\])$/m.exec(script)![1]!)).toEqual(gateway)
})
