import { expect, test } from 'vitest'
import { instrumentState } from './instrument-state.ts'

const today = '2026-03-02'
const until = (validUntil: string, passed = true) => ({ validUntil, passed })

test('an instrument is due from 30 days before its calibration ends', () => {
  expect(instrumentState('in-service', [until('2026-04-02')], today)).toBe('in-service')
  expect(instrumentState('in-service', [until('2026-04-01')], today)).toBe('due')
  expect(instrumentState('in-service', [until('2026-02-01')], today)).toBe('due')
})

test('only the latest calibration counts', () => {
  expect(instrumentState('in-service', [until('2026-02-01', false), until('2027-02-01')], today)).toBe('in-service')
  expect(instrumentState('in-service', [until('2027-02-01'), until('2027-03-01', false)], today)).toBe('out')
})

test('out of service stays out; without any calibration it stays as set', () => {
  expect(instrumentState('out', [until('2027-02-01')], today)).toBe('out')
  expect(instrumentState('in-service', [], today)).toBe('in-service')
})
