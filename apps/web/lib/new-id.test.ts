import { expect, test } from 'vitest'
import { newId } from './new-id.ts'

test('an id is a UUID of version 7 that begins with its time', () => {
  const id = newId(Date.UTC(2026, 2, 5))
  expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
  expect(parseInt(id.replaceAll('-', '').slice(0, 12), 16)).toBe(Date.UTC(2026, 2, 5))
})

test('a thousand ids of one instant differ', () => {
  expect(new Set(Array.from({ length: 1000 }, () => newId(0))).size).toBe(1000)
})
