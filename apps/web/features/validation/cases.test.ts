import { expect, test } from 'vitest'
import { casesOf, type CaseRow } from './cases.ts'

const row = (title: string, unit: string, agrees = true): CaseRow => ({
  method: 'abrasion',
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

test('outcomes of one case stand together, and a case that differs stands first', () => {
  const cases = casesOf([row('plain', 'loss, g'), row('plain', 'loss, g/m²'), row('odd', 'loss, g', false)])
  expect(cases.map(({ title, rows, agrees }) => [title, rows.length, agrees])).toEqual([
    ['odd', 1, false],
    ['plain', 2, true],
  ])
})
