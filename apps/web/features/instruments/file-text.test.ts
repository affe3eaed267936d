import { expect, test } from 'vitest'
import { textOf } from './file-text.ts'

const bytes = (...values: number[]) => new Uint8Array(values).buffer

test('a file is read as UTF-8, without its mark, else as older spreadsheets write it', () => {
  expect(textOf(new TextEncoder().encode('Oven, 60 °C').buffer)).toBe('Oven, 60 °C')
  expect(textOf(bytes(0xef, 0xbb, 0xbf, 0x61))).toBe('a')
  expect(textOf(bytes(0x67, 0x2f, 0x6d, 0xb2))).toBe('g/m²')
})
