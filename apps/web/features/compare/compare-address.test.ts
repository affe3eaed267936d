import { expect, test } from 'vitest'
import { compareSearch, readChosen, writeChosen } from './compare-address.ts'

const id = '0198c0de-0000-7000-8000-000000000001'
const revisions = [1, 2, 3].map((number) => ({ id: `${number}`, number, state: 'approved' as const }))

test('a revision is written into the address and read back; the newest needs no number', () => {
  for (const chosen of [{ id }, { id, revision: 2 }]) expect(readChosen(writeChosen(chosen))).toEqual(chosen)
  for (const typed of ['', 'x', `${id}.0`, `${id}.`, `${id}.2.3`, `${id} `]) expect(readChosen(typed)).toBeNull()
})

test('a revision is compared with the one before it, the first with the one after it, the earlier one first', () => {
  const search = (revision: number) =>
    Object.fromEntries(new URLSearchParams(compareSearch({ id, revision, revisions })))
  expect(search(3)).toEqual({ a: `${id}.2`, b: `${id}.3` })
  expect(search(1)).toEqual({ a: `${id}.1`, b: `${id}.2` })
  expect(compareSearch({ id, revision: 1, revisions: revisions.slice(0, 1) })).toBe(`a=${id}.1`)
})
