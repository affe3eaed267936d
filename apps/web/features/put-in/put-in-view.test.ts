import type { PutIn } from '@curebook/contract/put-in'
import { expect, test } from 'vitest'
import { clockOf, planOf, type PutInChoice } from './put-in-view.ts'

const labels = ['10-1', '12-1', '14-1', '11-1', '13-1', '13-2', '11-2']
const data = (text: Partial<PutIn> = {}): PutIn => ({
  ...{ now: '2026-03-05T10:16:30Z', designId: 'd', designName: 'Design', methodKey: 'm', methodName: 'Method' },
  soak: { earliestMinutes: 60, latestMinutes: 75, edition: 'Edition' },
  later: [],
  waiting: [
    ...labels.map((label) => ({ testId: label, code: label, label, spare: false, ready: true })),
    { testId: 'spare', code: 'spare', label: '12-4', spare: true, ready: true },
  ],
  soaking: [],
  lastRunAt: null,
  ...text,
})
const usual: PutInChoice = { day: '', at: '', run: '', margin: '', spares: '' }
const now = Date.parse('2026-03-05T10:16:30Z')
const clock = (ms: number | null | undefined) => (ms == null ? '' : new Date(ms).toISOString().slice(11, 16))
const putIns = (choice: Partial<PutInChoice>, at = now, zone = 'Europe/London') =>
  planOf(data(), { ...usual, ...choice }, at, zone)!.rows.map(({ putIn }) => clock(putIn))

test('nothing chosen: from the next five minutes on, a quarter of an hour apart, without unused spares', () => {
  expect(putIns({})).toEqual(['10:20', '10:35', '10:50', '11:05', '11:20', '11:35', '11:50'])
  expect(putIns({ spares: 'yes' })).toHaveLength(8)
})

test('run, margin and first time are as chosen, in the laboratory’s zone', () => {
  expect(putIns({ at: '11:00', run: '13' }).slice(0, 2)).toEqual(['11:00', '11:13'])
  expect(putIns({ at: '12:00' }, now, 'Europe/Paris')[0]).toBe('11:00')
  expect(putIns({ run: '7' })[1]).toBe('10:35')
  expect(planOf(data(), { ...usual, day: '2026-03-09' }, now, 'Europe/London')!.rows[0]!.putIn).toBe(
    Date.parse('2026-03-09T10:00:00Z'),
  )
})

test('a first put-in that has passed goes on from this minute', () => {
  expect(putIns({ at: '10:00' })[0]).toBe('10:17')
})

test('what lies in the bath comes first, and the next acts are one of each', () => {
  const soaking = ['14-1', '11-1', '13-1'].map((label, index) => ({
    ...{ testId: label, code: label, label },
    mayStartAt: new Date(Date.parse('2026-03-05T11:50:00Z') + index * 900_000).toISOString(),
    mustStartAt: new Date(Date.parse('2026-03-05T12:05:00Z') + index * 900_000).toISOString(),
  }))
  const waiting = data().waiting.filter(({ label }) => ['13-2', '11-2'].includes(label))
  const plan = planOf(data({ soaking, waiting }), { ...usual, at: '11:35' }, now, 'Europe/London')!
  const { putIn, start } = plan.next
  expect([putIn?.label, clock(putIn?.putIn), start?.label, clock(start?.plannedStart)]).toEqual([
    '13-2',
    '11:35',
    '14-1',
    '11:52',
  ])
  expect([plan.waiting, plan.lateAtOnce]).toEqual([2, 1])
})

test('a run whose latest start has passed is missed, and planned from this minute on', () => {
  const soaking = [
    {
      testId: '11-3',
      code: '11-3',
      label: '11-3',
      mayStartAt: '2026-03-05T14:50:00Z',
      mustStartAt: '2026-03-05T15:05:00Z',
    },
  ]
  const late = Date.parse('2026-03-05T15:10:20Z')
  const [row] = planOf(data({ soaking, waiting: [] }), usual, late, 'Europe/London')!.rows
  expect([row?.late, row?.missed, clock(row?.plannedStart)]).toEqual([true, true, '15:10'])
})

test('a run that is on the machine is waited for', () => {
  const soaking = [
    {
      testId: '11-3',
      code: '11-3',
      label: '11-3',
      mayStartAt: '2026-03-05T10:00:00Z',
      mustStartAt: '2026-03-05T10:45:00Z',
    },
  ]
  const rows = planOf(data({ soaking, lastRunAt: '2026-03-05T10:10:00Z' }), usual, now, 'Europe/London')!.rows
  expect([rows[0]?.late, clock(rows[0]?.plannedStart)]).toEqual([false, '10:25'])
})

test('without an open test there is no list; a time of day is read as people write it', () => {
  expect(planOf(data({ soak: null }), usual, now, 'UTC')).toBeNull()
  expect(['9:05', '0905', '23.59', '24:00', '', 'ten'].map(clockOf)).toEqual([
    '09:05',
    '09:05',
    '23:59',
    undefined,
    undefined,
    undefined,
  ])
})
