import { expect, test } from 'vitest'
import { ApiProblem } from '#lib/api-problem.ts'
import { createActSending } from './act-sending.ts'

const lost = new ApiProblem('network', 0, 'Unreachable', '')
const refused = new ApiProblem('invalid-input', 400, 'Refused', '')

/** A list whose clock goes on with each press, and whose ids are counted. */
function list() {
  let [clock, made] = [0, 0]
  const sending = createActSending<string>(() => `id ${(made += 1)}`)
  const press = (testIds: readonly string[], chosen = 'now') =>
    sending
      .groups(testIds, chosen, `${chosen} ${(clock += 1)}`)
      .map(({ taken, rows }) => [taken, rows.map(({ testId, id }) => `${testId}: ${id}`)])
  return { ...sending, press }
}

test('pressed again after a lost answer it is the same act at the same time', () => {
  const { press, failed } = list()
  const first = press(['a', 'b'])
  expect(first).toEqual([['now 1', ['a: id 1', 'b: id 2']]])
  failed(['a', 'b'], lost)
  expect(press(['a', 'b'])).toEqual(first)
})

test('a specimen added after the lost answer is an act of its own, at its own time', () => {
  const { press, failed } = list()
  press(['a'])
  failed(['a'], lost)
  expect(press(['a', 'b'])).toEqual([
    ['now 1', ['a: id 1']],
    ['now 2', ['b: id 2']],
  ])
})

test('another time chosen is another act', () => {
  const { press, failed } = list()
  press(['a'])
  failed(['a'], lost)
  expect(press(['a'], '2 minutes ago')).toEqual([['2 minutes ago 2', ['a: id 2']]])
})

test('what was answered, and what is certain to have written nothing, is taken anew', () => {
  const { press, answered, failed } = list()
  press(['a', 'b'])
  answered(['a', 'b'])
  expect(press(['b'])).toEqual([['now 2', ['b: id 3']]])
  failed(['b'], refused)
  expect(press(['b'])).toEqual([['now 3', ['b: id 4']]])
})

test('a refusal after a lost answer says nothing of the sending before it', () => {
  const { press, failed } = list()
  press(['a'])
  failed(['a'], lost)
  press(['a'])
  failed(['a'], refused)
  expect(press(['a'])).toEqual([['now 1', ['a: id 1']]])
})
