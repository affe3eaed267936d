import { expect, test } from 'vitest'
import { reportedOf } from './calculation-reported.ts'

test('what is cut is said with the step to which it is cut, halves to even', () => {
  expect(reportedOf('6.2487', 1)).toEqual({ cut: '6.2', step: '0.1' })
  expect(reportedOf('6.25', 1)).toEqual({ cut: '6.2', step: '0.1' })
  expect(reportedOf('6.35', 1)).toEqual({ cut: '6.4', step: '0.1' })
  expect(reportedOf('2.5', 0)).toEqual({ cut: '2', step: '1' })
  expect(reportedOf('6.90500000001', 3)).toEqual({ cut: '6.905', step: '0.001' })
})

test('nothing is said where nothing is cut', () => {
  for (const [digits, decimals] of [
    ['6.2', 1],
    ['6.200', 1],
    ['6', 3],
    ['6.2487', undefined],
  ] as const)
    expect(reportedOf(digits, decimals)).toBeNull()
})
