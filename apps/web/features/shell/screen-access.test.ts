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

test('a form on a page of its own is for those who may send it; what it is about stays open to read', () => {
  const auditor = having('project:read', 'specification:read', 'instrument:read')
  for (const form of ['projects/new', 'specifications/own', 'specifications/new', 'specifications/1/edit'])
    expect(mayOpenPath(`/l/ternhollow/${form}`, auditor), form).toBe(false)
  for (const page of ['projects', 'projects/1', 'specifications', 'specifications/1', 'instruments/1'])
    expect(mayOpenPath(`/l/ternhollow/${page}`, auditor), page).toBe(true)
  const engineer = having('specification:read', 'specification:write')
  expect(mayOpenPath('/l/ternhollow/specifications/own', engineer)).toBe(true)
  expect(mayOpenPath('/l/ternhollow/specifications/1/edit', engineer)).toBe(true)
  expect(mayOpenPath('/l/ternhollow/specifications/new', engineer)).toBe(false)
})

test('an address that leads nowhere is not found, whoever asks', () => {
  expect(mayOpenPath('/l/ternhollow/nothing', having())).toBe(true)
  expect(mayOpenPath('/l/ternhollow', having())).toBe(true)
  expect(mayOpenPath('/l/ternhollow/toString', having())).toBe(true)
})
