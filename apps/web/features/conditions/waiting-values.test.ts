import { expect, test } from 'vitest'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { logLane, waitingValues } from './waiting-values.ts'

const entry = (id: string, more: Partial<OutboxEntry> = {}): OutboxEntry => ({
  id,
  lane: logLane('oven'),
  path: '/api/labs/l/instruments/oven/conditions',
  body: { values: [{ id, value: '60.4' }], time: { eventAt: '2026-03-05T08:01:00.000Z' } },
  label: `Log of OV-1: ${id}`,
  topics: [],
  labId: 'l',
  membershipId: 'me',
  personName: 'Me',
  queuedAt: '2026-03-05T08:05:00.000Z',
  order: 1,
  attempts: 0,
  state: 'queued',
  ...more,
})
const problem = { code: 'wrong-state', status: 409, message: 'OV-1 was taken back.', errors: [], extra: {} }

test('values of a log that wait or were refused are told with their time, reason and what they wait behind', () => {
  const waiting = waitingValues(
    [
      entry('60.4', { state: 'refused', problem }),
      entry('60.9', { order: 2 }),
      entry('other', { membershipId: 'another' }),
      entry('load', { lane: 'load/x' }),
      entry('61.0', { order: 3, body: { id: 'c', value: '61.0', reason: 'Slip' } }),
    ],
    'me',
  )
  expect(
    waiting.map(({ id, instrumentId, at, refused, reason, behind }) => [
      id,
      instrumentId,
      at,
      refused,
      reason ?? behind,
    ]),
  ).toEqual([
    ['60.4', 'oven', '2026-03-05T08:01:00.000Z', true, 'OV-1 was taken back.'],
    ['60.9', 'oven', '2026-03-05T08:01:00.000Z', false, 'Log of OV-1: 60.4'],
    ['61.0', 'oven', '2026-03-05T08:05:00.000Z', false, 'Log of OV-1: 60.4'],
  ])
})
