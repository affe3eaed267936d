import type { ScheduleRow } from '@curebook/contract/schedule'
import { expect, test } from 'vitest'
import { dayLoadsOf, daysFrom } from './day-load.ts'

const clock = { now: '2026-03-05T23:30:00Z', zone: 'Europe/Paris' }
const row = (testId: string, text: Partial<ScheduleRow>): ScheduleRow => ({
  ...{
    testId,
    itemId: testId,
    code: testId,
    label: testId,
    designId: 'd',
    designName: 'Design',
    projectName: 'Project',
  },
  ...{
    form: 'disc',
    methodKey: 'abrasion',
    methodName: 'Abrasion',
    stepKey: 'abrade',
    act: 'start',
    stepTitle: 'Abrade',
  },
  ...{ opensAt: null, closesAt: null, urgency: 'open', assignee: null, started: true, held: null },
  ...text,
})

test('days are the laboratory’s, from today on', () => {
  expect(daysFrom(clock, 3)).toEqual(['2026-03-06', '2026-03-07', '2026-03-08'])
})

test('hands-on minutes stand on the day by which the act must be done, late ones today', () => {
  const rows = [
    row('late', { closesAt: '2026-03-04T10:00:00Z', urgency: 'late' }),
    row('today', { closesAt: '2026-03-06T10:00:00Z' }),
    row('weigh', { stepKey: 'weigh-before', act: 'reading', closesAt: '2026-03-07T10:00:00Z' }),
    row('weigh too', { stepKey: 'weigh-before', act: 'reading', closesAt: '2026-03-07T10:00:00Z' }),
    row('oven', { stepKey: 'cure', act: 'start', closesAt: '2026-03-07T11:00:00Z' }),
    row('cast', { form: 'strip', stepKey: 'weigh-components', act: 'reading', urgency: 'any-time' }),
    row('opens tomorrow', { opensAt: '2026-03-07T08:00:00Z', urgency: 'opens-later' }),
    row('open since yesterday', { opensAt: '2026-03-05T08:00:00Z', urgency: 'open' }),
    row('ended', { stepKey: null, act: null, urgency: 'any-time' }),
  ]
  const { days, anyTime } = dayLoadsOf(rows, clock, daysFrom(clock, 3))
  expect(days).toEqual([
    { minutes: 45, windows: 1 },
    { minutes: 18, windows: 2 },
    { minutes: 0, windows: 0 },
  ])
  expect(anyTime).toBe(8)
})
