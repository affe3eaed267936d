import type { Calibration, InstrumentFactor } from '@curebook/contract/instruments'
import { describe, expect, test } from 'vitest'
import { calibrationState, factorKeyOf, factorsByUnit, latestCalibration } from './instrument-facts.ts'

const calibration = (doneOn: string, passed = true) => ({ doneOn, passed }) as Calibration
const factor = (id: string, unit: string, current: boolean) => ({ id, unit, current }) as InstrumentFactor

describe('the calibration of an instrument in one word', () => {
  test('the one done last counts, in whatever order they come', () => {
    expect(latestCalibration([calibration('2026-03-01'), calibration('2025-03-01')])?.doneOn).toBe('2026-03-01')
    expect(latestCalibration([])).toBeUndefined()
  })
  test('a failed one says so, and an instrument without any is not called calibrated', () => {
    expect(calibrationState({ state: 'out', calibrations: [calibration('2026-03-01', false)] })).toBe('failed')
    expect(calibrationState({ state: 'out', calibrations: [calibration('2026-03-01')] })).toBe('out')
    expect(calibrationState({ state: 'due', calibrations: [calibration('2026-03-01')] })).toBe('due')
    expect(calibrationState({ state: 'in-service', calibrations: [] })).toBe('none')
    expect(calibrationState({ state: 'in-service', calibrations: [calibration('2026-03-01')] })).toBe('in-service')
  })
})

describe('the factors of a machine', () => {
  test('stand one for each unit; a missing one is never taken from the other unit', () => {
    const groups = factorsByUnit([factor('old', 'g/m²', false), factor('new', 'g/m²', true)])
    expect(groups.map(({ unit, current, earlier }) => [unit, current?.id, earlier.map(({ id }) => id)])).toEqual([
      ['g/m²', 'new', ['old']],
      ['g/ft²', undefined, []],
    ])
  })
  test('only machines that abrade or press sand hold one', () => {
    expect(factorKeyOf({ kind: 'wet-track-machine' })).toBe('area')
    expect(factorKeyOf({ kind: 'loaded-wheel' })).toBe('frame')
    expect(factorKeyOf({ kind: 'balance' })).toBeUndefined()
  })
})
