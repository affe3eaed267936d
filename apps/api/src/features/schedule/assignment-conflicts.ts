import type { AssignmentConflict, ScheduleRow } from '@curebook/contract/schedule'
import { isClosedDay, type ClosedDays } from '@curebook/trade/procedure/closed-days'
import { crowdingOf, loadByDay, overlaps, roundsOf, shiftMinutes } from '@curebook/trade/procedure/person-load'
import { dayIn } from '#platform/laboratory-day'
import type { Assignable, AssignmentDecision } from './assignment-rules.ts'

/** What a person is asked to take on, beside what they have. */
export type Planned = {
  /** Rows of the schedule that would be theirs. */
  readonly given: readonly ScheduleRow[]
  /** Rows that are theirs already and stay so. */
  readonly theirs: readonly ScheduleRow[]
}
export type WorkingHours = {
  readonly zone: string
  readonly closedDays: ClosedDays
  readonly shifts: readonly { readonly from: string; readonly to: string }[]
}

/** What the assignment itself would refuse, each sentence once, and what it would ask a reason for. */
export function bindingConflicts(
  { outcomes }: AssignmentDecision,
  needReason: readonly string[],
  here: readonly Assignable[],
): readonly AssignmentConflict[] {
  const named = (ids: readonly string[]) =>
    ids.map((id) => {
      const test = here.find(({ testId }) => testId === id)
      return { id, label: test?.label ?? '', code: test?.code ?? '' }
    })
  return [
    ...outcomes
      .filter(({ outcome }) => outcome === 'refused')
      .map(({ id, sentence }) => ({ kind: 'refused' as const, sentence: sentence ?? '', tests: named([id]) })),
    ...(needReason.length > 0 ? [{ kind: 'begun' as const, tests: named(needReason) }] : []),
  ]
}

/** What a manager weighs: closed days, a day beyond the shift, windows that cannot all be met, windows at the same time. */
export function conflictsOf(
  { given, theirs }: Planned,
  { zone, closedDays, shifts }: WorkingHours,
  now: Date,
): readonly AssignmentConflict[] {
  const dayOf = (iso: string) => dayIn(zone, new Date(iso))
  return [
    ...onClosedDays(given, closedDays, dayOf),
    ...overShift({ given, theirs }, shiftMinutes(shifts), now, dayOf),
    ...crowded({ given, theirs }, now),
    ...overlapping({ given, theirs }, now),
  ]
}

function onClosedDays(
  given: readonly ScheduleRow[],
  closed: ClosedDays,
  dayOf: (iso: string) => string,
): readonly AssignmentConflict[] {
  const days = new Map<string, ScheduleRow[]>()
  for (const row of given) {
    const at = row.closesAt ?? row.opensAt
    if (at === null || row.urgency === 'late' || !isClosedDay(dayOf(at), closed)) continue
    days.set(dayOf(at), [...(days.get(dayOf(at)) ?? []), row])
  }
  return [...days].map(([day, rows]) => ({ kind: 'closed-day', day, tests: rows.map(nameOf) }))
}

function overShift(
  { given, theirs }: Planned,
  shift: number,
  now: Date,
  dayOf: (iso: string) => string,
): readonly AssignmentConflict[] {
  const added = loadByDay(given, now.toISOString(), dayOf)
  return [...loadByDay([...theirs, ...given], now.toISOString(), dayOf)].flatMap(([day, { minutes }]) =>
    day !== null && minutes > shift && (added.get(day)?.minutes ?? 0) > 0
      ? [{ kind: 'over-shift' as const, day, minutes, shiftMinutes: shift }]
      : [],
  )
}

function crowded({ given, theirs }: Planned, now: Date): readonly AssignmentConflict[] {
  const found = crowdingOf([...theirs, ...given], now.getTime())
  const mine = new Set<unknown>(given)
  if (!found || !found.acts.some((act) => mine.has(act))) return []
  return [
    {
      kind: 'crowded',
      from: new Date(found.from).toISOString(),
      to: new Date(found.to).toISOString(),
      minutes: found.minutes,
      tests: [...theirs, ...given].filter((row) => found.acts.includes(row)).map(nameOf),
    },
  ]
}

function overlapping({ given, theirs }: Planned, now: Date): readonly AssignmentConflict[] {
  const present = roundsOf(theirs, now.getTime())
  const clashing = roundsOf(given, now.getTime()).filter((round) => present.some((other) => overlaps(round, other)))
  const steps = [...new Set(clashing.map(({ stepTitle }) => stepTitle))]
  return steps.length > 0 ? [{ kind: 'overlap', steps }] : []
}

function nameOf({ testId, label, code }: ScheduleRow) {
  return { id: testId, label, code }
}
