import type { Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { isStuck, urgencyOf } from '@curebook/trade/procedure/urgency'
import { dayOf } from '#lib/laboratory-time.ts'

/** What a manager asks first; each is a number and exactly the rows behind it. */
export const looks = ['late', 'due-today', 'stuck', 'unassigned', 'waiting'] as const
export type Look = (typeof looks)[number]

/** The filters as they stand in the address; empty = not set. `person` is a membership or `nobody`. */
export type Filters = {
  readonly show: string
  readonly person: string
  readonly method: string
  readonly design: string
}
export const noFilters: Filters = { show: '', person: '', method: '', design: '' }
export const nobody = 'nobody'

/** The rest of an address without its filters: the order stays, it is no filter. */
export function withoutFilters(search: string): string {
  const rest = new URLSearchParams(search)
  for (const name of Object.keys(noFilters)) rest.delete(name)
  return rest.size === 0 ? '' : `?${rest}`
}

/** The laboratory's clock and zone, by which windows are judged. */
export type Clock = { readonly now: string; readonly zone: string }

/** Rows judged by the laboratory's clock as it moves: a window that has closed meanwhile is late now. */
export function judgedAt(rows: readonly ScheduleRow[], now: string): readonly ScheduleRow[] {
  return rows.map((row) => {
    const urgency = urgencyOf(row.opensAt, row.closesAt, now)
    return urgency === row.urgency ? row : { ...row, urgency }
  })
}

export function countsOf(rows: readonly ScheduleRow[], clock: Clock): Readonly<Record<Look, number>> {
  const count = (look: Look) => rows.filter((row) => isIn(look, row, clock)).length
  return {
    late: count('late'),
    'due-today': count('due-today'),
    stuck: count('stuck'),
    unassigned: count('unassigned'),
    waiting: count('waiting'),
  }
}

/** Whether anything is left to do at the bench. What is ended and only held shows where it is asked what is held. */
export function hasNextAct({ stepKey }: ScheduleRow): boolean {
  return stepKey !== null
}

export function filteredRows(rows: readonly ScheduleRow[], filters: Filters, clock: Clock): readonly ScheduleRow[] {
  const { show, person, method, design } = filters
  const look = looks.find((one) => one === show)
  return rows.filter(
    (row) =>
      (look === undefined ? hasNextAct(row) : isIn(look, row, clock)) &&
      (person === '' || (row.assignee?.membershipId ?? nobody) === person) &&
      (method === '' || row.methodKey === method) &&
      (design === '' || row.designId === design),
  )
}

function isIn(look: Look, row: ScheduleRow, { now, zone }: Clock): boolean {
  if (look === 'late') return row.urgency === 'late'
  if (look === 'stuck') return isStuck(row)
  if (look === 'waiting') return row.held === 'decision'
  if (look === 'unassigned') return row.assignee === null && hasNextAct(row)
  return row.urgency !== 'late' && row.closesAt !== null && dayOf(row.closesAt, zone) === dayOf(now, zone)
}

/** How many rows came, went or stand otherwise; what only the passing of time changes does not count. */
export function changesBetween(before: Schedule['rows'], after: Schedule['rows']): number {
  const textOf = ({ urgency: _, ...row }: ScheduleRow) => JSON.stringify(row)
  const earlier = new Map(before.map((row) => [row.testId, textOf(row)]))
  const later = new Set(after.map(({ testId }) => testId))
  const changedOrNew = after.filter((row) => earlier.get(row.testId) !== textOf(row)).length
  return changedOrNew + before.filter(({ testId }) => !later.has(testId)).length
}

/** Rows of a begun test that somebody else has: taking them over asks for a reason. */
export function needReason(rows: readonly ScheduleRow[], to: string | null): readonly ScheduleRow[] {
  return rows.filter(({ started, assignee }) => started && assignee !== null && assignee.membershipId !== to)
}
