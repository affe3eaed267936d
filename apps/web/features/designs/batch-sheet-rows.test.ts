import type { BatchSheet } from '@curebook/contract/designs'
import { describe, expect, test } from 'vitest'
import { basesOf, decimalsOfTarget, sheetRows } from './batch-sheet-rows.ts'

const sheet = (own: Partial<BatchSheet>): BatchSheet => ({
  mixId: 'm10',
  emulsionPercent: '10',
  form: 'disc',
  methodKey: 'one',
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

test('bases are named once', () => {
  const residual = [{ basis: '% of dry aggregate', percent: '6.26' }]
  expect(basesOf([sheet({ residual }), sheet({ residual })])).toEqual(['% of dry aggregate'])
})

test('a small target keeps a second decimal', () => {
  expect([decimalsOfTarget('1.6'), decimalsOfTarget('80'), decimalsOfTarget('0')]).toEqual([2, 1, 2])
})
