import { expect, test } from 'vitest'
import { casesByMethod, type CaseRow } from './cases.ts'

const row = (method: string, title: string, unit: string, agrees = true): CaseRow => ({
  method,
  title,
  source: 'made for the purpose',
  inputs: [{ name: 'W1', value: '812.4 g' }],
  expected: '1',
  obtained: agrees ? '1' : '2',
  unit,
  tolerance: '0',
  agrees,
  computation: 1,
})

test('outcomes of one case stand together by method, and a case in which one differs stands first', () => {
  const methods = casesByMethod([
    row('abrasion', 'plain', 'loss, g'),
    row('batch', 'mix', 'content'),
    row('abrasion', 'odd', 'loss, g'),
    row('abrasion', 'plain', 'loss, g/m²'),
    row('abrasion', 'odd', 'loss, g/m²', false),
  ])
  expect(methods.map(({ method, rows }) => [method, rows.map(({ title, first }) => `${title} ${first}`)])).toEqual([
    ['abrasion', ['odd true', 'odd false', 'plain true', 'plain false']],
    ['batch', ['mix true']],
  ])
  expect(new Set(methods.flatMap(({ rows }) => rows.map(({ id }) => id))).size).toBe(5)
})
