import { expect, test } from 'vitest'
import { copyText } from './copy-text.ts'

test('a text is copied, and a browser that refuses or has no clipboard is told', async () => {
  const copied: string[] = []
  expect(await copyText('key', { writeText: async (text) => void copied.push(text) })).toBe(true)
  expect(copied).toEqual(['key'])
  expect(await copyText('key', { writeText: () => Promise.reject(new Error('NotAllowedError')) })).toBe(false)
})
test('outside a secure context there is none', async () => {
  const before = Object.getOwnPropertyDescriptor(globalThis, 'navigator')
  Object.defineProperty(globalThis, 'navigator', { value: {}, configurable: true })
  try {
    expect(await copyText('key')).toBe(false)
  } finally {
    if (before) Object.defineProperty(globalThis, 'navigator', before)
  }
})
