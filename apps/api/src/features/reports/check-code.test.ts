import { expect, test } from 'vitest'
import { codeHash, newCheckCode, plainCode } from './check-code.ts'

test('a check code has six groups of four signs without look-alikes, and is never the same twice', () => {
  const codes = Array.from({ length: 200 }, newCheckCode)
  for (const code of codes) expect(code).toMatch(/^([A-HJ-NP-Z2-9]{4}-){5}[A-HJ-NP-Z2-9]{4}$/)
  expect(new Set(codes).size).toBe(200)
})

test('a code typed with spaces and small letters is the same code', () => {
  expect(plainCode(' abcd-efgh 2345 ')).toBe('ABCDEFGH2345')
  expect(codeHash('ABCD-EFGH')).toEqual(codeHash('abcd efgh'))
})
