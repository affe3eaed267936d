import { expect, test } from 'vitest'
import { justifyOf } from './hand.ts'
import { hands, parseTabletSettings } from './tablet-settings.ts'

test('each hand has a side of its own, and a device that was never set has its buttons in the middle', () => {
  expect(hands.map(justifyOf)).toEqual(['flex-start', 'center', 'flex-end'])
  expect(justifyOf(parseTabletSettings(null).hand)).toBe('center')
})
