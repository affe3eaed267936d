import fc from 'fast-check'
import { expect, test } from 'vitest'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from '../methods/wet-track-abrasion.ts'
import type { MethodDeclaration } from './declaration.ts'
import {
  lateIfAtOnce,
  machineOf,
  nextActs,
  planPutIn,
  putInWindowOf,
  soakOf,
  usualMarginMinutes,
  type Soak,
} from './put-in.ts'

const minutes = (count: number) => count * 60_000
const soakOfMethod = (method: MethodDeclaration) => soakOf(putInWindowOf(method)!, method.editions[0]!.parameters)
const oneHour = soakOfMethod(wetTrackAbrasion1h)
const sixDay = soakOfMethod(wetTrackAbrasion6d)
const at = (clock: string, day = '2026-03-05') => Date.parse(`${day}T${clock}:00Z`)
const clock = (ms: number | null) => (ms === null ? '' : new Date(ms).toISOString().slice(11, 16))
const order = [
  '10-1',
  '12-1',
  '14-1',
  '11-1',
  '13-1',
  '13-2',
  '11-2',
  '14-2',
  '12-2',
  '10-2',
  '12-3',
  '10-3',
  '13-3',
  '14-3',
  '11-3',
]
const discs = order.map((label) => ({ id: label, label }))
const plan = (text: Partial<Parameters<typeof planPutIn>[0]> = {}) =>
  planPutIn({
    soaking: [],
    waiting: discs,
    firstPutIn: at('10:20'),
    now: at('10:16'),
    soak: oneHour,
    runMs: minutes(15),
    marginMs: minutes(usualMarginMinutes),
    ...text,
  })

test('the window of a soak before a machine is found by what it is; a loaded wheel has none', () => {
  expect(oneHour).toEqual({ earliestMs: minutes(60), latestMs: minutes(75) })
  expect(sixDay).toEqual({ earliestMs: minutes(144 * 60), latestMs: minutes(146 * 60) })
  expect(putInWindowOf(loadedWheelSandAdhesion)).toBeNull()
  expect([wetTrackAbrasion1h, wetTrackAbrasion6d, loadedWheelSandAdhesion].map(machineOf)).toEqual([
    'wet-track-machine',
    'wet-track-machine',
    null,
  ])
})

test('the day of the 1-hour discs: put in a quarter of an hour apart from 10:20', () => {
  const rows = plan()
  expect(
    rows.map((row) => [
      row.label,
      clock(row.putIn),
      clock(row.mayStart),
      clock(row.mustStart),
      clock(row.plannedStart),
    ]),
  ).toEqual([
    ['10-1', '10:20', '11:20', '11:35', '11:22'],
    ['12-1', '10:35', '11:35', '11:50', '11:37'],
    ['14-1', '10:50', '11:50', '12:05', '11:52'],
    ['11-1', '11:05', '12:05', '12:20', '12:07'],
    ['13-1', '11:20', '12:20', '12:35', '12:22'],
    ['13-2', '11:35', '12:35', '12:50', '12:37'],
    ['11-2', '11:50', '12:50', '13:05', '12:52'],
    ['14-2', '12:05', '13:05', '13:20', '13:07'],
    ['12-2', '12:20', '13:20', '13:35', '13:22'],
    ['10-2', '12:35', '13:35', '13:50', '13:37'],
    ['12-3', '12:50', '13:50', '14:05', '13:52'],
    ['10-3', '13:05', '14:05', '14:20', '14:07'],
    ['13-3', '13:20', '14:20', '14:35', '14:22'],
    ['14-3', '13:35', '14:35', '14:50', '14:37'],
    ['11-3', '13:50', '14:50', '15:05', '14:52'],
  ])
})

test('with five discs in the bath, the next act is to put in 13-2 at 11:35 and to start 14-1 at 11:52', () => {
  const inBath = plan().slice(2, 5)
  const rows = plan({ soaking: inBath, waiting: discs.slice(5), firstPutIn: at('11:35') })
  const { putIn, start } = nextActs(rows)
  expect([putIn?.label, clock(putIn!.putIn), start?.label, clock(start!.plannedStart)]).toEqual([
    '13-2',
    '11:35',
    '14-1',
    '11:52',
  ])
  expect(nextActs([])).toEqual({ putIn: null, start: null })
})

test('a run that is due is not planned into the past, and what is put in after it waits for it', () => {
  // 11-3 may start at 14:50 and must by 15:05; at 15:10 it still lies in the bath.
  const inBath = plan().slice(-1)
  const waiting = [discs[0]!]
  const [missed, next] = plan({ soaking: inBath, waiting, firstPutIn: at('15:10'), now: at('15:10'), marginMs: 0 })
  expect(missed).toMatchObject({ label: '11-3', late: true, missed: true })
  expect([clock(missed!.plannedStart), clock(next!.putIn), clock(next!.plannedStart)]).toEqual([
    '15:10',
    '15:10',
    '16:10',
  ])
  // Within its window it starts now, although its margin has passed.
  const [due] = plan({ soaking: inBath, waiting: [], now: at('15:01') })
  expect([clock(due!.plannedStart), due!.late, due!.missed]).toEqual(['15:01', false, false])
  // Not missed yet, but the machine is free too late.
  const [blocked] = plan({ soaking: inBath, waiting: [], now: at('15:01'), machineFree: at('15:08') })
  expect([clock(blocked!.plannedStart), blocked!.late, blocked!.missed]).toEqual(['15:08', true, false])
})

test('a short soak is not begun so early that its run would meet one that goes on late', () => {
  const soaking = [{ id: '11-3', label: '11-3', mayStart: at('14:50'), mustStart: at('15:05') }]
  const soak = { earliestMs: minutes(5), latestMs: minutes(10) }
  const rows = plan({ soaking, waiting: [discs[0]!], firstPutIn: at('15:10'), now: at('15:10'), soak })
  expect(rows.map(({ plannedStart }) => clock(plannedStart))).toEqual(['15:10', '15:25'])
  expect(clock(rows[1]!.putIn)).toBe('15:18')
})

test('with all fifteen due at 10:30 six days later, seven would have been late; with the 1-hour soak all but one', () => {
  const times = { runMs: minutes(15), marginMs: minutes(5) }
  expect(lateIfAtOnce(15, { soak: sixDay, ...times })).toBe(7)
  expect(lateIfAtOnce(15, { soak: oneHour, ...times })).toBe(14)
  expect(lateIfAtOnce(1, { soak: oneHour, ...times })).toBe(0)
  const staggered = plan({ soak: sixDay, firstPutIn: at('10:30'), marginMs: minutes(5) })
  expect([staggered.at(0), staggered.at(-1)].map((row) => new Date(row!.plannedStart).toISOString())).toEqual([
    '2026-03-11T10:35:00.000Z',
    '2026-03-11T14:05:00.000Z',
  ])
})

const someSoak = fc
  .tuple(fc.integer({ min: 1, max: 10_000 }), fc.integer({ min: 0, max: 200 }))
  .map(([earliest, width]): Soak => ({ earliestMs: minutes(earliest), latestMs: minutes(earliest + width) }))

test('every planned start lies in its own window, no two runs overlap, and no two discs are put in at once', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 40 }),
      someSoak,
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 0, max: 300 }),
      (count, soak, run, margin) => {
        const waiting = Array.from({ length: count }, (_, index) => ({ id: `${index}`, label: `${index}` }))
        const rows = plan({ waiting, soak, runMs: minutes(run), marginMs: minutes(margin) })
        for (const [index, row] of rows.entries()) {
          expect(row.late).toBe(false)
          expect(row.plannedStart).toBeGreaterThanOrEqual(row.mayStart)
          expect(row.plannedStart).toBeLessThanOrEqual(row.mustStart)
          expect(row.mayStart).toBe(row.putIn! + soak.earliestMs)
          const before = rows[index - 1]
          if (before === undefined) continue
          expect(row.plannedStart - before.plannedStart).toBeGreaterThanOrEqual(minutes(run))
          expect(row.putIn! - before.putIn!).toBeGreaterThanOrEqual(minutes(run))
        }
      },
    ),
  )
})

test('what lies in the bath is run as its windows end, what cannot be met is said, and what waits finds the machine free', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -60, max: 120 }), { maxLength: 12 }),
      fc.integer({ min: 0, max: 12 }),
      (starts, count) => {
        const soaking = starts.map((minute, index) => ({
          ...{ id: `in ${index}`, label: `in ${index}` },
          mayStart: at('11:00') + minutes(minute),
          mustStart: at('11:15') + minutes(minute),
        }))
        const waiting = Array.from({ length: count }, (_, index) => ({ id: `${index}`, label: `${index}` }))
        const rows = plan({ soaking, waiting, firstPutIn: at('11:10'), now: at('11:10') })
        expect(rows).toHaveLength(starts.length + count)
        // A short gap before a run that is due later is used, so that the order of the list is not that of the machine.
        const byStart = rows.toSorted((a, b) => a.plannedStart - b.plannedStart)
        for (const [index, row] of byStart.entries()) {
          expect(row.plannedStart).toBeGreaterThanOrEqual(row.mayStart)
          expect(row.late).toBe(row.plannedStart > row.mustStart)
          expect(row.plannedStart).toBeGreaterThanOrEqual(at('11:10'))
          expect(row.missed).toBe(row.mustStart < at('11:10'))
          if (row.putIn !== null) expect(row.late).toBe(false)
          if (index > 0) expect(row.plannedStart - byStart[index - 1]!.plannedStart).toBeGreaterThanOrEqual(minutes(15))
        }
      },
    ),
  )
})
