import { describe, expect, test } from 'vitest'
import { kindOfFile } from './file-kind.ts'

const text = (words: string) => new TextEncoder().encode(words)

describe('the kind of a file is read from its first bytes', () => {
  test('pictures, PDF and plain lists', () => {
    expect(kindOfFile(new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16]))).toBe('image/jpeg')
    expect(kindOfFile(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0]))).toBe('image/png')
    expect(kindOfFile(text('%PDF-1.7\n'))).toBe('application/pdf')
    expect(kindOfFile(text('cup;s\r\n1;74\r\n'))).toBe('text/csv')
    // µ as one byte, as older spreadsheets write it.
    expect(kindOfFile(new Uint8Array([0xb5, 0x6d, 0x0a]))).toBe('text/csv')
  })
  test('pages, programs and empty files are none of them', () => {
    expect(kindOfFile(text('<html>'))).toBeUndefined()
    expect(kindOfFile(text('\uFEFF \n<svg/>'))).toBeUndefined()
    expect(kindOfFile(new Uint8Array([0x7f, 0x45, 0x4c, 0x46]))).toBeUndefined()
    expect(kindOfFile(new Uint8Array([0x50, 0x4b, 3, 4]))).toBeUndefined()
    expect(kindOfFile(new Uint8Array())).toBeUndefined()
  })
})
