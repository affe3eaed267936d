import { describe, expect, test } from 'vitest'
import { windowPhase, windowShares } from './window-state.ts'

const minute = 60_000

describe('a window', () => {
  test.each([
    [-1, 'pending'],
    [0, 'open'],
    [104 * minute, 'open'],
    [108 * minute, 'closing'],
    [120 * minute, 'closing'],
    [120 * minute + 1, 'over'],
  ])('that opens at 0 and closes after two hours is, at %i ms, %s', (now, phase) => {
    expect(windowPhase(now, 0, 120 * minute)).toBe(phase)
  })
  test('without an end never closes, without a beginning is open at once', () => {
    expect(windowPhase(1e12, 0, undefined)).toBe('open')
    expect(windowPhase(0, undefined, 60 * minute)).toBe('open')
  })
  test('keeps now inside its bar, in order with its ends', () => {
    const early = windowShares(0, 10, 20)
    expect(early.now).toBeLessThan(early.opens)
    expect(early.opens).toBeLessThan(early.closes)
    const late = windowShares(50, 10, 20)
    expect(late.now).toBeLessThan(1)
    expect(late.now).toBeGreaterThan(late.closes)
  })
})
