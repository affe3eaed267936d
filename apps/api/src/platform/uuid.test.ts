import { expect, test } from 'vitest'
import { newId } from './uuid.ts'

test('ids are UUIDs of version 7, each once, in the order in which they were made', () => {
  const ids = Array.from({ length: 20_000 }, newId)
  expect(ids.every((id) => /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(id))).toBe(true)
  expect(new Set(ids).size).toBe(ids.length)
  expect(ids.toSorted()).toEqual(ids)
})
