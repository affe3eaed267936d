import type { BatchSheet } from '@curebook/contract/designs'
import { describe, expect, test } from 'vitest'
import { basesOf, decimalsOfTarget, sheetRows, sheetTables, sheetsByContent } from './batch-sheet-rows.ts'

const sheet = (own: Partial<BatchSheet>): BatchSheet => ({
  mixId: 'm10',
  emulsionPercent: '10',
  form: 'disc',
  methodKey: 'one',
  testIds: [],
  dryAggregateG: '800',
  moisturePercent: '0.0',
  fractionUsed: '',
  scalpedPercent: '',
  rows: [],
  residual: [],
  refusal: null,
  ...own,
})

describe('batch sheets by content and form', () => {
  test('two methods that are cast from the same batch share one row', () => {
    const rows = sheetRows([
      sheet({}),
      sheet({ methodKey: 'two' }),
      sheet({ form: 'strip', dryAggregateG: '300', methodKey: 'three' }),
    ])
    expect(rows.map(({ methodKeys }) => methodKeys)).toEqual([['one', 'two'], ['three']])
  })
  test('discs come before strips, each from lean to rich by number, not by letter', () => {
    const rows = sheetRows([
      sheet({ mixId: 'm10', form: 'strip' }),
      sheet({ mixId: 'm10' }),
      sheet({ mixId: 'm9', emulsionPercent: '9.5' }),
    ])
    expect(rows.map(({ sheet: { form, emulsionPercent } }) => `${form} ${emulsionPercent}`)).toEqual([
      'disc 9.5',
      'disc 10',
      'strip 10',
    ])
  })
})

test('batches of another size stand in a table of their own, whose head names it', () => {
  const rows = sheetRows([
    sheet({ form: 'strip', dryAggregateG: '500', methodKey: 'displacement' }),
    sheet({ form: 'strip', dryAggregateG: '300' }),
    sheet({ form: 'strip', dryAggregateG: '300', mixId: 'm12', emulsionPercent: '12' }),
    sheet({ form: 'strip', dryAggregateG: '300', mixId: 'm14', emulsionPercent: '14', refusal: 'no moisture' }),
    sheet({}),
  ])
  const sizes = sheetTables(rows, 'strip').map((table) => table.map((row) => row.sheet.dryAggregateG))
  expect(sizes).toEqual([['300', '300'], ['500']])
  expect(sheetTables(rows, 'pill')).toEqual([])
})

test('bases are named once', () => {
  const residual = [{ basis: '% of dry aggregate', percent: '6.26' }]
  expect(basesOf([sheet({ residual }), sheet({ residual })])).toEqual(['% of dry aggregate'])
})

test('a target is shown to 0.1 g, a small one with a second decimal where it has one', () => {
  expect(['1.6', '0.65', '80', '0', '104.25'].map(decimalsOfTarget)).toEqual([1, 2, 1, 1, 1])
})

test('residual binder stands once a content, lean first, where the residue is known', () => {
  const residual = [{ basis: '% of dry aggregate', percent: '6.26' }]
  const sheets = [
    sheet({ mixId: 'm12', emulsionPercent: '12', residual }),
    sheet({ residual }),
    sheet({ residual, form: 'strip' }),
    sheet({ mixId: 'm13', emulsionPercent: '13' }),
  ]
  expect(sheetsByContent(sheets).map(({ mixId }) => mixId)).toEqual(['m10', 'm12'])
})
