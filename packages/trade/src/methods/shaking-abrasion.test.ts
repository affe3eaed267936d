import { expect, test } from 'vitest'
import { shakingAbrasion } from './shaking-abrasion.ts'

const { parameters } = shakingAbrasion.editions[0]!
const weighed = (before: string, after: string) =>
  shakingAbrasion.evaluate(
    [
      { id: 'm', step: 'prepare', key: 'mixture', repeat: 1, value: 'as the standard has it' },
      { id: 'w1', step: 'weigh-before', key: 'mass', repeat: 1, value: before, unit: 'g' },
      { id: 'w2', step: 'weigh-after', key: 'mass', repeat: 1, value: after, unit: 'g' },
    ],
    { parameters, factors: [], inputs: {} },
  )

test('the loss, and the loss of the mass before', () => {
  // 41.20 − 40.60 = 0.60; 0.60 ÷ 41.20 = 1.4563 %
  const { results } = weighed('41.20', '40.60')
  expect(results.map(({ key, unit }) => [key, unit])).toEqual([
    ['loss', 'g'],
    ['loss-share', '%'],
  ])
  expect(results[0]!.value).toBe('0.6')
  expect(Number(results[1]!.value)).toBeCloseTo((100 * 0.6) / 41.2, 10)
})

test('a gain is refused with both weighings', () => {
  expect(weighed('41.20', '41.35').refusals).toMatchObject([
    { key: 'loss', code: 'gain', detail: { gain: '0.15 g', W1: '41.20 g', W2: '41.35 g' } },
    { key: 'loss-share', code: 'gain' },
  ])
  expect(weighed('41.20', '0').refusals).toMatchObject([{ code: 'not-positive' }, { code: 'not-positive' }])
})

test('what was not read in the standard is no window, condition or limit here', () => {
  expect(shakingAbrasion.windows).toEqual([])
  expect(shakingAbrasion.steps.flatMap(({ conditions }) => conditions)).toEqual([])
  expect(Object.keys(parameters)).toEqual(['replicates', 'balance-step'])
})
