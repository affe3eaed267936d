import { describe, expect, it } from 'vitest'
import { calibrationFault } from './calibration-fault.ts'

const passed = { doneOn: '2026-01-05', validUntil: '2026-03-01', passed: true }

describe('a reading with an instrument', () => {
  it('counts on every day of its calibration, the last included', () => {
    expect(calibrationFault('BAL-1', 'in-service', [passed], '2026-01-05')).toBeNull()
    expect(calibrationFault('BAL-1', 'in-service', [passed], '2026-03-01')).toBeNull()
  })
  it('does not count by itself before, after, or after a failed one', () => {
    expect(calibrationFault('BAL-1', 'in-service', [passed], '2026-03-02')).toBe(
      'The calibration of BAL-1 ended on 2026-03-01; it was used on 2026-03-02.',
    )
    expect(calibrationFault('BAL-1', 'in-service', [passed], '2026-01-04')).toBe(
      'BAL-1 was not calibrated yet on 2026-01-04.',
    )
    const failed = { doneOn: '2026-02-01', validUntil: '2026-03-01', passed: false }
    expect(calibrationFault('BAL-1', 'in-service', [passed, failed], '2026-02-02')).toBe(
      'BAL-1 failed its calibration of 2026-02-01.',
    )
    expect(calibrationFault('BAL-1', 'in-service', [passed, failed], '2026-01-20')).toBeNull()
  })
  it('out of service does not count; without any calibration on record it does, and review says so', () => {
    expect(calibrationFault('BAL-1', 'out', [passed], '2026-02-01')).toBe('BAL-1 is out of service.')
    expect(calibrationFault('BAL-1', 'in-service', [], '2026-02-01')).toBeNull()
  })
})
