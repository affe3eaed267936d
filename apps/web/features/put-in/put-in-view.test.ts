import type { PutIn } from '@curebook/contract/put-in'
import { expect, test } from 'vitest'
import { clockOf, planOf, toSettle, type PutInChoice } from './put-in-view.ts'

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
  ...{ breaks: [], machines: [], elsewhere: [], running: [], settled: null },
  ...text,
})
const usual: PutInChoice = { day: '', at: '', run: '', margin: '', spares: '', machine: '' }
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

const machine = (id: string) => ({ id, code: id, name: 'Machine' })
const soaksElsewhere = (instrumentId: string | null, settledStartAt: string | null = null) => ({
  ...{ testId: 'other', code: 'other', label: '20-1', designName: 'Other design', methodName: 'Method' },
  ...{ mayStartAt: '2026-03-05T11:20:00Z', mustStartAt: '2026-03-05T11:35:00Z', settledStartAt, instrumentId },
})
const rowsOf = (text: Partial<PutIn>, choice: Partial<PutInChoice> = {}) =>
  planOf(data(text), { ...usual, ...choice }, now, 'Europe/London')!.rows.map(
    ({ label, plannedStart }) => `${label} ${clock(plannedStart)}`,
  )

test('the laboratory’s breaks stay free of put-ins and runs, on its own wall', () => {
  const breaks = [{ from: '12:00', to: '12:30' }]
  expect(rowsOf({ breaks }).slice(0, 3)).toEqual(['10-1 11:22', '12-1 11:37', '14-1 12:30'])
  const paris = planOf(data({ breaks }), usual, now, 'Europe/Paris')!.rows
  expect([clock(paris[0]!.putIn), clock(paris[0]!.plannedStart)]).toEqual(['10:20', '11:30'])
  // A six-day soak ends on another day, with its own break.
  const soak = { earliestMinutes: 144 * 60, latestMinutes: 146 * 60, edition: 'Edition' }
  const [first] = planOf(data({ breaks, soak }), { ...usual, at: '11:50' }, now, 'Europe/London')!.rows
  expect([clock(first!.putIn), new Date(first!.plannedStart).toISOString()]).toEqual([
    '11:50',
    '2026-03-11T12:30:00.000Z',
  ])
})

test('what soaks for the same machine takes it; for another machine it does not', () => {
  const two = [machine('a'), machine('b')]
  expect(rowsOf({ elsewhere: [soaksElsewhere(null)] })[0]).toBe('20-1 11:22')
  expect(rowsOf({ elsewhere: [soaksElsewhere('a', '2026-03-05T11:30:00Z')], machines: two }, { machine: 'a' })[0]).toBe(
    '20-1 11:30',
  )
  expect(rowsOf({ elsewhere: [soaksElsewhere('a')], machines: two }, { machine: 'b' })[0]).toBe('10-1 11:22')
  // Nobody chose a machine: it may be that one.
  expect(rowsOf({ elsewhere: [soaksElsewhere('a')], machines: two })[0]).toBe('20-1 11:22')
})

test('a run of another design that is on the machine is waited for', () => {
  const soaking = [
    {
      ...{ testId: '11-3', code: '11-3', label: '11-3' },
      mayStartAt: '2026-03-05T10:00:00Z',
      mustStartAt: '2026-03-05T10:45:00Z',
    },
  ]
  const running = [{ startedAt: '2026-03-05T10:12:00Z', instrumentId: 'a' }]
  const machines = [machine('a'), machine('b')]
  expect(rowsOf({ soaking, running, machines }, { machine: 'a' })[0]).toBe('11-3 10:27')
  expect(rowsOf({ soaking, running, machines }, { machine: 'b' })[0]).toBe('11-3 10:16')
})

test('without a choice the list goes on as it was settled: machine, run and first put-in', () => {
  const settled: NonNullable<PutIn['settled']> = {
    ...{ id: 's', by: { membershipId: 'm', name: 'M', initials: 'M' }, at: '2026-03-05T09:00:00Z', reason: null },
    ...{ instrument: machine('b'), runMinutes: 20 },
    rows: [
      {
        ...{ testId: '10-1', code: '10-1', label: '10-1', putInAt: '2026-03-05T10:40:00Z' },
        ...{ startAt: '2026-03-05T11:42:00Z', mustStartAt: '2026-03-05T11:55:00Z' },
      },
    ],
  }
  const plan = planOf(data({ settled, machines: [machine('a'), machine('b')] }), usual, now, 'Europe/London')!
  expect([clock(plan.rows[0]!.putIn), plan.run, plan.machineId]).toEqual(['10:40', 20, 'b'])
  const chosen = planOf(data({ settled }), { ...usual, at: '11:00', run: '15' }, now, 'Europe/London')!
  expect([clock(chosen.rows[0]!.putIn), chosen.run, chosen.machineId]).toEqual(['11:00', 15, null])
})

test('what is settled is the own rows alone, in place of the list that stood', () => {
  const given = data({ elsewhere: [soaksElsewhere(null)], waiting: data().waiting.slice(0, 1) })
  const plan = planOf(given, usual, now, 'Europe/London')!
  expect(plan.rows).toHaveLength(2)
  expect(toSettle(given, plan, ' ')).toEqual({
    ...{ designId: 'd', methodKey: 'm', instrumentId: null, runMinutes: 15, supersedes: null },
    rows: [{ testId: '10-1', putInAt: '2026-03-05T10:35:00.000Z', startAt: '2026-03-05T11:37:00.000Z' }],
  })
})
