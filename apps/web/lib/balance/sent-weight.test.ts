import { learnLine } from '@curebook/trade/quantity/balance-line'
import { describe, expect, test } from 'vitest'
import { goesInto, judgeLine, quietMs } from './sent-weight.ts'

function learnt(line: string, shown: string) {
  const answer = learnLine({ line, shown })
  if (!answer.ok) throw new Error(answer.message)
  return answer.format
}
const format = learnt('ST,GS,+  0812.4 g', '812.4')
const at = 1_000_000

describe('a line of the balance', () => {
  test.each([
    ['ST,GS,+  0773.7 g', '773.7 g'],
    ['ST,GS,-  0000.2 g', '-0.2 g'],
    ['ST,GS,+  0640.0 g', '640.0 g'],
  ])('%s is typed as %s', (line, typed) => {
    expect(judgeLine(format, { line, at }, 0)).toEqual({ kind: 'weight', typed, pressed: true })
  })

  test('without a unit in the example none is typed', () => {
    expect(judgeLine(learnt('812.4', '812.4'), { line: '  9.10 ', at }, 0)).toMatchObject({ typed: '9.10' })
  })

  test('that is not steady, or of another form, gives no number but its sentence', () => {
    expect(judgeLine(format, { line: 'US,GS,+  0773.7 g', at }, 0)).toEqual({
      kind: 'not-understood',
      message: '“US,GS,+  0773.7 g” lacks “ST”: the balance was not steady, or not in the mode of the example.',
    })
    expect(judgeLine(format, { line: 'OL', at }, 0)).toMatchObject({ kind: 'not-understood' })
  })

  test('was pressed for only when it was quiet before', () => {
    const pressed = (before: number) => judgeLine(format, { line: 'ST,GS,+  0773.7 g', at }, before)
    expect(pressed(at - quietMs)).toMatchObject({ pressed: true })
    expect(pressed(at - quietMs + 1)).toMatchObject({ pressed: false })
  })
})

describe('a weight goes into the open field', () => {
  const empty = { typed: '', put: undefined, heldOver: undefined }
  const sent = { typed: '773.7 g', pressed: false }

  test('when it is empty, or holds what the balance put there', () => {
    expect(goesInto(empty, sent)).toBe(true)
    expect(goesInto({ ...empty, typed: '773.5 g', put: '773.5 g' }, sent)).toBe(true)
  })

  test('not over what somebody types, unless the print key was pressed', () => {
    expect(goesInto({ ...empty, typed: '77' }, sent)).toBe(false)
    expect(goesInto({ ...empty, typed: '773.5', put: '773.5 g' }, sent)).toBe(false)
    expect(goesInto({ ...empty, typed: '77' }, { ...sent, pressed: true })).toBe(true)
  })

  test('not for the next specimen while the one before still lies there', () => {
    expect(goesInto({ ...empty, heldOver: '773.7 g' }, sent)).toBe(false)
    expect(goesInto({ ...empty, heldOver: '812.4 g' }, sent)).toBe(true)
    expect(goesInto({ ...empty, heldOver: '773.7 g' }, { ...sent, pressed: true })).toBe(true)
  })
})
