import { expect, test } from 'vitest'
import { mayOpenPath } from './screen-access.ts'

const having =
  (...actions: readonly string[]) =>
  (action: string) =>
    actions.includes(action)

test('a page and all below it is for those whose actions open its screen', () => {
  const client = having('progress:read')
  for (const page of ['schedule', 'bench/tests/1', 'designs/1', 'specifications/1', 'validation'])
    expect(mayOpenPath(`/l/ternhollow/${page}`, client), page).toBe(false)
  for (const page of ['projects', 'projects/1', 'account'])
    expect(mayOpenPath(`/l/ternhollow/${page}`, client)).toBe(true)
  expect(mayOpenPath('/l/ternhollow/schedule', having('assignment:read'))).toBe(true)
})

test('an address that leads nowhere is not found, whoever asks', () => {
  expect(mayOpenPath('/l/ternhollow/nothing', having())).toBe(true)
  expect(mayOpenPath('/l/ternhollow', having())).toBe(true)
  expect(mayOpenPath('/l/ternhollow/toString', having())).toBe(true)
})
