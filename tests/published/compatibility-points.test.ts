import { classificationCompatibility } from '@curebook/trade/methods/classification-compatibility'
import { builtInReferenceCases } from '@curebook/trade/reference-cases/built-in'
import { judge } from '@curebook/trade/specification/judge'
import { expect, test } from 'vitest'
import { limitOf } from './guideline-limits.ts'

export const methods = ['classification-compatibility']

// Source: abstract of a study of micro-surfacing at the Indian Institute of Technology Guwahati, which moved a mix from 4 to
// 12 compatibility points. The readings behind them are not printed: what can be held against it is that both totals are
// totals of the table, 12 its highest, and that the guideline's least of 11 points parts them.
const parameters = classificationCompatibility.editions[0]?.parameters ?? {}
const limit = limitOf('issa-a143-2010', 'compatibility')

test('12 points are the most that three grades give', () => {
  const points = ['a', 'b', 'c', 'd', '0'].map((grade) => Number(parameters[`points-${grade}`]?.value))
  expect(3 * Math.max(...points)).toBe(12)
})

test.each([
  ['4', 'fail'],
  ['11', 'pass'],
  ['12', 'pass'],
])('%s points %s the least of the guideline', (value, verdict) => {
  expect(limit).toMatchObject({ value: '11', sense: 'min' })
  expect(judge(limit, { value, unit: 'points' }).verdict).toBe(verdict)
})

test('both totals come out of readings, in the unit in which the guideline stands', () => {
  const { cases } = builtInReferenceCases.find(({ method }) => method === classificationCompatibility.key)!
  const totals = cases.flatMap(({ expected }) =>
    expected.flatMap((one) => (one.key === 'points' && 'value' in one ? [[one.value, one.unit]] : [])),
  )
  for (const value of ['4', '12']) expect(totals).toContainEqual([value, limit.unit])
})
