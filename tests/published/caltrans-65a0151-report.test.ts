import { batchSheet } from '@curebook/trade/design/batch-sheet'
import { expect, test } from 'vitest'

// Source: Caltrans contract 65A0151, Phase II report (December 2010), a batch sheet printed on page 148.
// Only the components are checked: the printed total of 1601.1 g before the test is not their sum.
test('1350.0 g of aggregate: cement 0.5 % prints as 6.8 g, water 8.0 % as 108.0 g, emulsion 10.0 % as 135.0 g', () => {
  const outcome = batchSheet({
    dryAggregateG: '1350.0',
    moisturePercent: '0',
    fillerPercent: '0.5',
    waterPercent: '8.0',
    additivePercent: '0',
    emulsionPercent: '10.0',
  })
  if (!outcome.ok) throw new Error(outcome.refusal.sentence)
  expect(outcome.sheet.rows).toEqual([
    { component: 'aggregate', targetG: '1350' },
    { component: 'filler', targetG: '6.75' },
    { component: 'water', targetG: '108' },
    { component: 'additive', targetG: '0' },
    { component: 'emulsion', targetG: '135' },
  ])
})
