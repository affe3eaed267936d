import { expect, test } from 'vitest'
import { lowBattery } from './battery.ts'

test.each([
  [0.149, false, 14],
  [0.02, false, 2],
  [0.15, false, undefined],
  [0.9, false, undefined],
  [0.05, true, undefined],
])('at %f, charging %s', (level, charging, told) => {
  expect(lowBattery({ level, charging })).toBe(told)
})
