import { batchSheet } from '@curebook/trade/design/batch-sheet'
import { cohesionAbrasion1h as cohesionAbrasion } from '@curebook/trade/methods/cohesion-abrasion'
import { expect, test } from 'vitest'

export const methods = ['cohesion-abrasion-30-min', 'cohesion-abrasion-1h', 'cohesion-abrasion-3h', 'batch']

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

// Cohesion abrasion of the same report: the specimen of page 148 before and after, and the words for losses of pages 122
// and 123: less than 100 g is high cohesion, 100 to 300 g average, near 400 g will not resist early traffic.
const cohesionOf = (before: string, after: string) =>
  cohesionAbrasion.evaluate(
    [
      { id: 'c', step: 'cure', key: 'temperature', repeat: 1, value: '25.0' },
      { id: 'h', step: 'cure', key: 'humidity', repeat: 1, value: '50' },
      { id: 'b', step: 'weigh-before', key: 'mass', repeat: 1, value: before },
      { id: 'a', step: 'weigh-after', key: 'mass', repeat: 1, value: after },
    ],
    { parameters: cohesionAbrasion.editions[0]!.parameters, factors: [], inputs: {} },
  )

test('1601.1 g before and 1330 g after print as a loss of 271.1 g, which is average cohesion', () => {
  const { results, choices } = cohesionOf('1601.1', '1330')
  expect(results).toMatchObject([{ key: 'loss', value: '271.1', unit: 'g' }])
  expect(choices).toMatchObject([{ choice: 'average' }])
})

test.each([
  ['99', 'high'],
  ['100', 'average'],
  ['300', 'average'],
  ['400', 'not-resisting'],
])('a loss of %s g is %s', (loss, choice) => {
  expect(cohesionOf('1600', String(1600 - Number(loss))).choices).toMatchObject([{ choice }])
})
