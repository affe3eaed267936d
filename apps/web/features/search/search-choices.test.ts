import type { Found } from '@curebook/contract/search'
import { expect, test } from 'vitest'
import { choicesOf, nextPlace } from './search-choices.ts'

const found = (kind: Found['kind']): Found => ({ kind, id: 'x', title: '', under: '', why: 'code', matched: '' })
const going = [
  { path: 'schedule', label: 'Schedule' },
  { path: 'projects/new', label: 'Enter a new project' },
  { path: 'projects', label: 'Projects' },
]

test('what was found stands before screens and acts, and each opens its own place', () => {
  const kinds = ['specimen', 'sample', 'project', 'design', 'person'] as const
  expect(choicesOf('project', kinds.map(found), going).map(({ path }) => path)).toEqual([
    'bench/tests/x',
    'materials/x',
    'projects/x',
    'designs/x',
    'people',
    'projects/new',
    'projects',
  ])
})

test('screens and acts are found by every word that is typed, in any order', () => {
  const paths = (typed: string) => choicesOf(typed, [], going).map(({ path }) => path)
  expect(paths('  project NEW ')).toEqual(['projects/new'])
  expect(paths('new schedule')).toEqual([])
  expect(paths('')).toHaveLength(3)
})

test('arrows go round the list, and a list that grew shorter keeps its last line', () => {
  expect(nextPlace('ArrowDown', 2, 3)).toBe(0)
  expect(nextPlace('ArrowUp', 0, 3)).toBe(2)
  expect(nextPlace('', 5, 3)).toBe(2)
  expect(nextPlace('ArrowDown', 0, 0)).toBe(0)
})
