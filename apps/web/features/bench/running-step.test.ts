import type { TestView } from '@curebook/contract/bench'
import { expect, test } from 'vitest'
import { runningStep } from './running-step.ts'

const startedAt = '2026-03-05T11:22:00.000Z'
const event = (stepKey: string, kind: 'start' | 'end', eventAt: string) =>
  ({
    id: stepKey,
    stepKey,
    kind,
    eventAt,
    receivedAt: eventAt,
    note: null,
    parts: [],
  }) as unknown as TestView['events'][number]
const view = (more: Partial<TestView> = {}) =>
  ({
    method: {
      steps: [
        { key: 'soak', events: ['start'] },
        { key: 'abrade', events: ['start'], runSecondsParameter: 'run-seconds' },
        { key: 'weigh-after', events: [] },
      ],
    },
    edition: { parameters: { 'run-seconds': { value: '300' } } },
    events: [event('soak', 'start', '2026-03-05T10:20:00.000Z'), event('abrade', 'start', startedAt)],
    readings: [],
    ...more,
  }) as unknown as TestView
const at = (minutes: number) => Date.parse(startedAt) + minutes * 60_000

test('a run is on from its start, and its clock stays for an hour after its end', () => {
  expect(runningStep(view(), at(2))).toMatchObject({ step: { key: 'abrade' }, run: { seconds: 300 } })
  expect(runningStep(view(), at(64))).toBeDefined()
  expect(runningStep(view(), at(66))).toBeUndefined()
})
test('nothing is on before a run, after the next act or after a later reading', () => {
  expect(runningStep(view({ events: view().events.slice(0, 1) }), at(2))).toBeUndefined()
  const next = event('dry-back', 'start', '2026-03-05T11:30:00.000Z')
  expect(runningStep(view({ events: [...view().events, next] }), at(9))).toBeUndefined()
  const weighed = { stepKey: 'weigh-after', eventAt: '2026-03-05T11:31:00.000Z' } as TestView['readings'][number]
  expect(runningStep(view({ readings: [weighed] }), at(10))).toBeUndefined()
})
