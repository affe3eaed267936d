import { judge } from '@curebook/trade/specification/judge'
import { round } from '@curebook/trade/quantity/rounding'
import { expect, test } from 'vitest'

// Source: Iowa Department of Transportation, Materials IM 202: the rounding method of ASTM E29, an exact 5 always up.
test('1.861 to two decimals is 1.86', () => {
  expect(round('1.861', 2, 'half-up')).toBe('1.86')
})

test('the last place of the limit decides: 4 1/4 in against a maximum of 4 passes, against 4.0 it fails', () => {
  const limit = { unit: 'in', sense: 'max', rounding: 'half-up', decisionRule: 'simple acceptance' } as const
  const result = { value: '4.25', unit: 'in' }
  expect(judge({ ...limit, value: '4' }, result).verdict).toBe('pass')
  expect(judge({ ...limit, value: '4.0' }, result).verdict).toBe('fail')
})
