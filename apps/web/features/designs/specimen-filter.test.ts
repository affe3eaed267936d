import { expect, test } from 'vitest'
import { filterSpecimens } from './specimen-filter.ts'

const rows = [
  { methodKey: 'a', state: 'done' as const },
  { methodKey: 'a', state: 'void' as const },
  { methodKey: 'b', state: 'done' as const },
]

test('a filter by test and by state holds both; without them all rows stand', () => {
  expect(filterSpecimens(rows, { method: 'a', state: 'done' })).toEqual([rows[0]])
  expect(filterSpecimens(rows, { method: '', state: 'done' })).toEqual([rows[0], rows[2]])
  expect(filterSpecimens(rows, { method: '', state: '' })).toEqual(rows)
})
