import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { learnLine, readLine, unitOfLine, type LineFormat } from './balance-line.ts'

function learned(line: string, shown: string): LineFormat {
  const answer = learnLine({ line, shown })
  if (!answer.ok) throw new Error(answer.message)
  return answer.format
}

describe('a line like the example gives its number', () => {
  test.each([
    ['ST,GS,+  0812.4 g', '812.4', 'ST,GS,+  0773.7 g', '+0773.7'],
    ['ST,GS,+  0812.4 g', '812.4', 'ST,GS,-  0000.2 g', '-0000.2'],
    ['+    812.40 g', '812.40', '      3.05 g', '3.05'],
    ['N     +  148.52 g', '148.52', 'N     +1148.52 g', '+1148.52'],
    ['No 0012 812,4 g', '812,4', 'No 0013 773,7 g', '773,7'],
    ['12:41:09 W 812.4g', '812.4', '12:42:10 W 9.9g', '9.9'],
    ['812.4', '812.4', '  640 ', '640'],
    ['[812.4](g)*', '812.4', '[1.5](g)*', '1.5'],
  ])('%s learnt, %s shown: %s', (line, shown, sent, digits) => {
    expect(readLine(learned(line, shown), sent)).toEqual({ ok: true, digits })
  })

  test('whatever it weighs, the digits come out as they went in', () => {
    const format = learned('ST,GS,+  0812.4 g', '812.4')
    fc.assert(
      fc.property(fc.nat(999_999), fc.nat(9), fc.constantFrom('+', '-'), (whole, tenth, sign) => {
        const digits = `${String(whole).padStart(6, '0')}.${tenth}`
        expect(readLine(format, `ST,GS,${sign}${digits} g\r`)).toEqual({ ok: true, digits: `${sign}${digits}` })
      }),
    )
  })
})

test('a balance that is not steady, or shows another unit, gives no number', () => {
  const format = learned('ST,GS,+  0812.4 g', '812.4')
  for (const [line, missing] of [
    ['US,GS,+  0812.1 g', 'ST'],
    ['ST,GS,+  28.66 oz', 'g'],
    ['ST,GS,+  0812.4', 'g'],
  ] as const)
    expect(readLine(format, line)).toMatchObject({
      code: 'other-words',
      message: `“${line}” lacks “${missing}”: the balance was not steady, or not in the mode of the example.`,
    })
})

test('a line of another form is not guessed at', () => {
  const format = learned('ST,GS,+  0812.4 g', '812.4')
  for (const line of ['', 'OL', 'ST,GS,+  0812.4 g 0773.7 g', 'ST;GS;+  0812.4 g', 'ST,GS,+  0.812.4 g'])
    expect(readLine(format, line)).toMatchObject({ ok: false, code: 'not-understood' })
})

test.each([
  ['ST,GS,+  0812.4 g', '812.5', 'does not stand in the line'],
  ['812.4 812.4 g', '812.4', 'twice'],
  ['ST,GS,+  0812.4 g', '812.4 g', 'without its unit'],
  ['ST,GS,+  0812.4 g', '', 'Give the number'],
  ['ST,GS,+  0812.45 g', '812.4', 'does not stand in the line'],
  ['1812.4 g', '812.4', 'does not stand in the line'],
])('%s with %j shown teaches nothing', (line, shown, sentence) => {
  expect(learnLine({ line, shown })).toMatchObject({ ok: false, message: expect.stringContaining(sentence) })
})

test('the unit is the one that the example names', () => {
  expect(unitOfLine(learned('ST,GS,+  0812.4 g', '812.4'))).toBe('g')
  expect(unitOfLine(learned('812.4', '812.4'))).toBeUndefined()
})
