import { expect, test } from 'vitest'
import { AppError } from './problem.ts'
import { afterPosition, pageFrom } from './page.ts'

const row = (n: number) => ({ at: new Date(Date.UTC(2026, 2, n)), id: `00000000-0000-7000-8000-00000000000${n}` })

test('the last page has no next', () => {
  expect(pageFrom([row(3), row(2)], 2, (it) => it).next).toBeNull()
})

test('the cursor of a page leads to what follows its last row', () => {
  const { rows, next } = pageFrom([row(3), row(2), row(1)], 2, (it) => it)
  expect(rows).toHaveLength(2)
  expect(afterPosition('at', next!)).toEqual({
    OR: [{ at: { lt: row(2).at } }, { at: row(2).at, id: { lt: row(2).id } }],
  })
})

test('a cursor that was not given out is refused', () => {
  expect(() => afterPosition('at', 'bm9uc2Vuc2U')).toThrow(AppError)
})
