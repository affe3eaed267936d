import { expect, test } from 'vitest'
import { ApiProblem } from './api-problem.ts'
import { createSending, wroteNothing, type LastSending } from './sending.ts'

const first: LastSending = { status: 'idle', error: null }
const failed = (code: string, status: number): LastSending => ({
  status: 'error',
  error: new ApiProblem(code, status, 'Refused', ''),
})
const lost = failed('network', 0)

/** A form whose clock goes on with each look, and whose ids are counted. */
function form() {
  let clock = 0
  let made = 0
  const sending = createSending<string>(() => `id ${(made += 1)}`)
  return {
    ...sending,
    press: (last: LastSending, chosen = 'now') => [
      sending.take(chosen, last, () => `${chosen} ${(clock += 1)}`),
      sending.id('load'),
      sending.id('temperature'),
    ],
  }
}

test('pressed again after a lost answer, it is the same time under the same ids', () => {
  const { press } = form()
  expect(press(first)).toEqual(['now 1', 'id 1', 'id 2'])
  for (const last of [
    lost,
    failed('unexpected', 500),
    failed('conflict', 409),
    { status: 'success', error: null } as const,
  ])
    expect(press(last)).toEqual(['now 1', 'id 1', 'id 2'])
})
test('another time chosen is another act, with ids of its own', () => {
  const { press } = form()
  press(first)
  expect(press(lost, '2 minutes ago')).toEqual(['2 minutes ago 2', 'id 3', 'id 4'])
  expect(press(lost, '2 minutes ago')).toEqual(['2 minutes ago 2', 'id 3', 'id 4'])
})
test('after a refusal that wrote nothing, and where nothing was sent, the time is taken anew', () => {
  const { press } = form()
  expect(press(first)).toEqual(['now 1', 'id 1', 'id 2'])
  expect(press(first)).toEqual(['now 2', 'id 1', 'id 2'])
  expect(press(failed('invalid-input', 400))).toEqual(['now 3', 'id 1', 'id 2'])
})
test('a refusal after a lost answer says nothing of the sending before it', () => {
  const { press } = form()
  press(first)
  expect(press(lost)[0]).toBe('now 1')
  expect(press(failed('not-signed-in', 401))[0]).toBe('now 1')
})
test('what is known not to stand is begun anew; a time that is missing is not kept', () => {
  const { press, renew, take } = form()
  press(first)
  renew()
  expect(press(lost)).toEqual(['now 2', 'id 3', 'id 4'])
  renew()
  expect(take('at', lost, () => undefined)).toBeUndefined()
  expect(press(lost, 'at')[0]).toBe('at 3')
})
test('an answer that never came, a fault of the server and a conflict leave open what stands', () => {
  expect([lost, failed('unexpected', 502), failed('conflict', 409)].map(wroteNothing)).toEqual([false, false, false])
  expect([first, failed('refused-by-rule', 422), failed('forbidden', 403)].map(wroteNothing)).toEqual([
    true,
    true,
    true,
  ])
})
