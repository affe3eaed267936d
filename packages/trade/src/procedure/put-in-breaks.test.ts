import fc from 'fast-check'
import { expect, test } from 'vitest'
import { firstFree, meets, meetsTimes, spansOn, type Span } from './free-time.ts'
import { nextActs, planPutIn, type PutInPlan, type PutInRow, type Soaking } from './put-in.ts'

const minutes = (count: number) => count * 60_000
const at = (clock: string, day = '2026-03-05') => Date.parse(`${day}T${clock}:00Z`)
const clock = (ms: number | null) => (ms === null ? '' : new Date(ms).toISOString().slice(11, 16))
const span = (from: string, to: string): Span => ({ from: at(from), to: at(to) })
const discs = Array.from({ length: 12 }, (_, index) => ({ id: `${index + 1}`, label: `10-${index + 1}` }))
const plan = (change: Partial<PutInPlan> = {}) =>
  planPutIn({
    ...{ soaking: [], waiting: [], firstPutIn: at('10:20'), now: at('10:16') },
    ...{ soak: { earliestMs: minutes(60), latestMs: minutes(75) }, runMs: minutes(15), marginMs: minutes(2) },
    ...change,
  })
const inBath = (label: string, may: string, more: Partial<Soaking> = {}): Soaking => ({
  ...{ id: label, label, mayStart: at(may), mustStart: at(may) + minutes(15) },
  ...more,
})
const starts = (rows: readonly PutInRow[]) => rows.map(({ plannedStart }) => clock(plannedStart))
const lunch = span('12:00', '12:30')

test('nothing is put in, started or changed between 12:00 and 12:30, and every start still falls in its window', () => {
  const rows = plan({ waiting: discs.slice(0, 9), breaks: [lunch] })
  expect(rows.map(({ putIn, plannedStart, moved }) => [clock(putIn), clock(plannedStart), moved])).toEqual([
    ['10:20', '11:22', false],
    ['10:35', '11:37', false],
    // 11:52 would go on into the break: put in later, to start after it.
    ['11:28', '12:30', true],
    ['11:43', '12:45', false],
    ['11:58', '13:00', false],
    ['12:30', '13:32', true],
    ['12:45', '13:47', false],
    ['13:00', '14:02', false],
    ['13:15', '14:17', false],
  ])
})

test('what lies in the bath already starts sooner than its margin, or as the break ends, where its window lets it', () => {
  const [sooner] = plan({ soaking: [inBath('12-1', '11:44')], breaks: [lunch] })
  expect([clock(sooner!.plannedStart), sooner!.moved, sooner!.late]).toEqual(['11:44', true, false])
  const [after] = plan({ soaking: [inBath('12-1', '12:20')], breaks: [lunch] })
  expect([clock(after!.plannedStart), after!.moved, after!.late]).toEqual(['12:30', true, false])
})

test('where the window lies in the break, it is said that it cannot', () => {
  const [row] = plan({ soaking: [inBath('12-1', '12:05')], breaks: [lunch] })
  expect(row).toMatchObject({ late: true, lateFor: 'break', missed: false })
  expect(clock(row!.plannedStart)).toBe('12:30')
  const [, second] = plan({ soaking: [inBath('12-1', '11:00'), inBath('12-2', '11:00')] })
  expect(second).toMatchObject({ late: true, lateFor: 'machine' })
})

test('a run settled elsewhere takes the machine; a soak of days leaves the hours before it free', () => {
  const other = inBath('14-1', '11:20', { elsewhere: true, settledStart: at('11:25') })
  const rows = plan({ soaking: [other], waiting: discs.slice(0, 3) })
  expect(starts(rows)).toEqual(['11:25', '11:40', '11:55', '12:10'])
  // Without margin the first disc still goes in at once: it starts as the machine is free, within its window.
  expect(clock(rows[1]!.putIn)).toBe('10:38')
  expect(nextActs(rows).start?.label).toBe('10-1')
  const sixDay = { ...inBath('16-1', '11:20'), elsewhere: true, mayStart: at('11:20', '2026-03-09') }
  const free = plan({ soaking: [{ ...sixDay, mustStart: at('13:20', '2026-03-09') }], waiting: discs.slice(0, 2) })
  expect(free.map(({ putIn }) => clock(putIn))).toEqual(['', '10:20', '10:35'])
})

test('two that lie in the bath, of two lists, are not planned onto each other', () => {
  const rows = plan({ soaking: [inBath('10-1', '11:00'), inBath('20-1', '11:01', { elsewhere: true })] })
  expect(rows.map(({ label, plannedStart, late }) => [label, clock(plannedStart), late])).toEqual([
    ['10-1', '11:02', false],
    ['20-1', '11:17', true],
  ])
})

test('a moment and a stretch find their place between spans; a break past midnight ends on the next day', () => {
  expect(clock(firstFree(at('12:00'), 1, [lunch]))).toBe('12:30')
  expect(clock(firstFree(at('11:59'), 1, [lunch]))).toBe('11:59')
  expect(clock(firstFree(at('11:50'), minutes(15), [span('12:40', '13:00'), lunch]))).toBe('13:00')
  expect(meets(at('11:45'), minutes(15), [lunch])).toBe(false)
  const night = spansOn(
    ['2026-03-05'],
    [{ from: '23:45', to: '00:15' }],
    (day, time) => at(time, day),
    () => '2026-03-06',
  )
  expect(night).toEqual([{ from: at('23:45'), to: at('00:15', '2026-03-06') }])
})

test('a run meets a time of day whatever the day, also past midnight', () => {
  const times = [
    { from: '12:00', to: '12:30' },
    { from: '23:45', to: '00:15' },
  ]
  const asked = (clock: string, length: number) =>
    meetsTimes(Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3)), length, times)
  expect([asked('11:45', 15), asked('11:46', 15), asked('12:30', 15), asked('12:29', 1)]).toEqual([
    false,
    true,
    false,
    true,
  ])
  expect([asked('23:40', 10), asked('00:10', 1), asked('00:15', 1), asked('23:30', 15)]).toEqual([
    true,
    true,
    false,
    false,
  ])
})

const someSpans = fc.array(fc.tuple(fc.integer({ min: 0, max: 600 }), fc.integer({ min: 1, max: 60 })), {
  maxLength: 5,
})
const someSoaking = fc.array(
  fc.record({
    may: fc.integer({ min: -60, max: 400 }),
    width: fc.integer({ min: 0, max: 150 }),
    elsewhere: fc.boolean(),
    settled: fc.option(fc.integer({ min: 0, max: 150 }), { nil: undefined }),
  }),
  { maxLength: 8 },
)

test('every start is in its window or said to be late, no run meets another or a break, nothing is put in in a break', () => {
  const now = at('10:00')
  fc.assert(
    fc.property(
      someSpans,
      someSoaking,
      fc.integer({ min: 0, max: 12 }),
      fc.record({ earliest: fc.integer({ min: 1, max: 400 }), width: fc.integer({ min: 0, max: 120 }) }),
      fc.record({ run: fc.integer({ min: 1, max: 40 }), margin: fc.integer({ min: 0, max: 60 }) }),
      (spans, inside, count, soak, { run, margin }) => {
        const breaks = spans.map(([from, length]) => ({ from: now + minutes(from), to: now + minutes(from + length) }))
        const soaking = inside.map(({ may, width, elsewhere, settled }, index): Soaking => ({
          ...{ id: `in ${index}`, label: `in ${index}`, elsewhere },
          ...{ mayStart: now + minutes(may), mustStart: now + minutes(may + width) },
          ...(settled === undefined ? {} : { settledStart: now + minutes(may + settled) }),
        }))
        const [runMs, bounds] = [
          minutes(run),
          { earliestMs: minutes(soak.earliest), latestMs: minutes(soak.earliest + soak.width) },
        ]
        const rows = plan({
          ...{ soaking, breaks, runMs, marginMs: minutes(margin), soak: bounds, now, firstPutIn: now },
          waiting: Array.from({ length: count }, (_, index) => ({ id: `${index}`, label: `${index}` })),
        })
        expect(rows).toHaveLength(inside.length + count)
        for (const row of rows) {
          const others = rows
            .filter((one) => one !== row)
            .map(({ plannedStart }) => ({ from: plannedStart, to: plannedStart + runMs }))
          expect(meets(row.plannedStart, runMs, [...others, ...breaks])).toBe(false)
          expect(row.plannedStart).toBeGreaterThanOrEqual(Math.max(now, row.mayStart))
          expect(row.late).toBe(row.plannedStart > row.mustStart)
          expect(row.lateFor !== null).toBe(row.late)
          if (breaks.length === 0) expect([row.moved, row.lateFor === 'break']).toEqual([false, false])
          if (row.putIn !== null) {
            expect(row.late).toBe(false)
            expect(meets(row.putIn, 1, breaks)).toBe(false)
            expect([row.mayStart, row.mustStart]).toEqual([row.putIn + bounds.earliestMs, row.putIn + bounds.latestMs])
          }
          // Said to be late, it is: no minute of its window is free.
          if (row.late && !row.missed)
            for (let start = Math.max(now, row.mayStart); start <= row.mustStart; start += minutes(1))
              expect(meets(start, runMs, [...others, ...breaks])).toBe(true)
        }
        const putIns = rows.flatMap(({ putIn }) => (putIn === null ? [] : [putIn]))
        for (const [index, putIn] of putIns.entries())
          if (index > 0) expect(putIn - putIns[index - 1]!).toBeGreaterThanOrEqual(runMs)
      },
    ),
  )
})
