import fc from 'fast-check'
import { expect, test } from 'vitest'
import { codeOf, isCode, normaliseCode, readCode } from './specimen-code.ts'

const firstCodes = Array.from({ length: 6000 }, (_, index) => codeOf(index + 1))
const alphabet = '3479CDFHJKMNPRTXY'

test('no two numbers share a code, and all are four or five characters without look-alikes', () => {
  expect(new Set(firstCodes).size).toBe(6000)
  for (const code of firstCodes) expect(code).toMatch(/^[3479CDFHJKMNPRTXY]{4,5}$/)
  expect(codeOf(4913)).toHaveLength(4)
  expect(codeOf(4914)).toHaveLength(5)
  expect(codeOf(4913 + 83521)).toHaveLength(5)
})

test('what is made is a code, typed in any case and with spaces or hyphens', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 80_000 }), (number) => {
      const code = codeOf(number)
      expect(isCode(code)).toBe(true)
      expect(normaliseCode(` ${code.slice(0, 2).toLowerCase()}-${code.slice(2)} `)).toBe(code)
      expect(readCode(code.toLowerCase())).toEqual({ ok: true, code })
    }),
  )
})

test('one wrong character, or two exchanged, is noticed', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 80_000 }),
      fc.nat({ max: 4 }),
      fc.constantFrom(...alphabet),
      (number, place, wrong) => {
        const code = codeOf(number)
        const at = place % code.length
        if (code.charAt(at) !== wrong) expect(isCode(code.slice(0, at) + wrong + code.slice(at + 1))).toBe(false)
        const next = (at + 1) % code.length
        const characters = [...code]
        characters[at] = code.charAt(next)
        characters[next] = code.charAt(at)
        if (characters.join('') !== code) expect(isCode(characters.join(''))).toBe(false)
      },
    ),
  )
})

test('codes that follow each other differ in at least two characters', () => {
  firstCodes.slice(1).forEach((code, index) => {
    const before = firstCodes[index] ?? ''
    const differing = [...code].filter((character, place) => character !== before.charAt(place))
    expect(differing.length).toBeGreaterThan(1)
  })
})

test('a text that is no code is refused with the reason', () => {
  expect(readCode('  ')).toMatchObject({ refusal: { code: 'empty' } })
  expect(readCode('K7')).toMatchObject({ refusal: { code: 'length' } })
  expect(readCode('K0HH')).toMatchObject({ refusal: { code: 'character' } })
  const code = codeOf(7)
  const slip = code.slice(0, -1) + (code.endsWith('3') ? '4' : '3')
  expect(readCode(slip)).toMatchObject({ refusal: { code: 'check' } })
  expect(() => codeOf(0)).toThrow(RangeError)
  expect(() => codeOf(1.5)).toThrow(RangeError)
})
