import type { Mix } from '@curebook/contract/designs'
import type { TrialCup } from '@curebook/contract/trials'
import { expect, test } from 'vitest'
import { baseRows, contentsOf, waterAt, withShare, withStep } from './base-rows.ts'

const value = (digits: string) => ({ typed: digits, value: digits })
const cup = { emulsion: value('12'), water: value('10'), additive: value('0.3'), filler: value('1') } as TrialCup
const mixes = ['10', '12', '14'].map((emulsionPercent) => ({ id: `mix ${emulsionPercent}`, emulsionPercent }) as Mix)

test('each content gets the cup’s additive and filler, and water by its emulsion', () => {
  const rows = baseRows(cup, mixes, '0,5')
  expect(rows.map(({ waterPercent }) => waterPercent)).toEqual(['11', '10', '9'])
  expect(contentsOf(rows.map((row) => ({ ...row, waterPercent: `${row.waterPercent},0` })))).toEqual([
    { mixId: 'mix 10', waterPercent: '11.0', additivePercent: '0.3', fillerPercent: '1' },
    { mixId: 'mix 12', waterPercent: '10.0', additivePercent: '0.3', fillerPercent: '1' },
    { mixId: 'mix 14', waterPercent: '9.0', additivePercent: '0.3', fillerPercent: '1' },
  ])
})
test('another step leaves alone what was set by hand', () => {
  const rows = baseRows(cup, mixes, '0.5').map((row, index) =>
    index === 0 ? withShare(row, 'waterPercent', '11.4') : withShare(row, 'fillerPercent', '1.5'),
  )
  const [first, ...others] = withStep(cup, rows, '1')
  expect(first).toMatchObject({ waterPercent: '11.4', fillerPercent: '1' })
  expect(others.map(({ waterPercent, fillerPercent }) => [waterPercent, fillerPercent])).toEqual([
    ['10', '1.5'],
    ['8', '1.5'],
  ])
  expect(contentsOf(withStep(cup, rows, '1'))[0]).not.toHaveProperty('waterByHand')
})
test('while a content or the step is no number, the cup’s own water stands', () => {
  expect(waterAt(cup, '', '0.5')).toBe('10')
  expect(waterAt(cup, '14', 'x')).toBe('10')
})
