import { wetStripping } from '@curebook/trade/methods/wet-stripping'
import { expect, it } from 'vitest'
import { standingOf } from './standing.ts'
import type { Slot, TestRecord } from './test-record.ts'

const slot = (step: string, key: string, value: string, counts = true): Slot => ({
  step,
  key,
  repeat: 1,
  readingId: `${step}-${key}`,
  typed: value,
  value,
  unit: null,
  choice: null,
  at: '2026-03-02T08:00:00Z',
  offsetMs: 0,
  counts,
})
const seen = (...slots: readonly Slot[]) => {
  const record = {
    state: 'in-work',
    slots,
    opened: [],
    events: [],
    machine: null,
    inputs: {},
    parameters: wetStripping.editions[0]!.parameters,
  } as unknown as TestRecord
  return standingOf(wetStripping, record, '2026-03-02T09:00:00Z').evaluation
}
const required = [slot('weigh-sample', 'mass', '10.0'), slot('look', 'coated', '95')]
const second = (value: string, counts: boolean) => slot('look', 'coated-second', value, counts)

it.each(['80', '95'])('a second person’s %s %% that does not count yet lets coating and grade wait', (value) => {
  const { results, choices, refusals } = seen(...required, second(value, false))
  expect([results, choices]).toEqual([[], []])
  expect(refusals.map(({ key, code }) => `${key} ${code}`)).toContain('coated waits-for-release')
  expect(refusals[0]!.text).toContain('Surface still coated, second person')
  expect(seen(...required, second(value, true)).refusals).toEqual([])
})

it('a reading that no formula uses holds nothing up', () => {
  const remark = { ...slot('look', 'observation', 'brown water', false), value: null }
  expect(seen(...required, remark)).toEqual(seen(...required))
})
