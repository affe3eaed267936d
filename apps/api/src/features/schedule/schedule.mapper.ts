import type { Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { isStuck, urgencyOf } from '@curebook/trade/procedure/urgency'
import { dayIn } from '#platform/laboratory-day'
import { personName } from '#platform/row-values'
import type { HeldTest } from './held.repository.ts'
import type { OpenTest } from './schedule.repository.ts'

const begun: readonly (string | null)[] = ['in-work', 'done']
const heldWords = {
  decision: 'Decide the deviation',
  spare: 'Put a spare in its place',
} as const satisfies Record<HeldTest['held'], string>

/** Open tests and held ones as one list: a held test with a next act is one row, one that is ended a row of its own. */
export function toScheduleRows(
  open: readonly OpenTest[],
  held: readonly HeldTest[],
  methods: readonly MethodDeclaration[],
  now: Date,
): ScheduleRow[] {
  const heldOf = new Map(held.map((test) => [test.testId, test.held]))
  const openIds = new Set(open.map(({ testId }) => testId))
  return [
    ...held.filter(({ testId }) => !openIds.has(testId)).map((test) => toHeldRow(test, methods)),
    ...open.map((test) => toOpenRow(test, heldOf.get(test.testId) ?? null, methods, now)),
  ]
}

function toOpenRow(
  row: OpenTest,
  held: ScheduleRow['held'],
  methods: readonly MethodDeclaration[],
  now: Date,
): ScheduleRow {
  const [opensAt, closesAt] = [row.opensAt?.toISOString() ?? null, row.closesAt?.toISOString() ?? null]
  const dueMethod = methodByKey(methods, row.dueMethodKey)
  return {
    ...namesOf(row, methods),
    stepKey: row.stepKey,
    act: row.act,
    stepTitle: dueMethod?.steps.find(({ key }) => key === row.stepKey)?.title ?? row.stepKey,
    opensAt,
    closesAt,
    urgency: urgencyOf(opensAt, closesAt, now.toISOString()),
    started: begun.includes(row.state) || begun.includes(row.batchState),
    held,
  }
}

function toHeldRow(row: HeldTest, methods: readonly MethodDeclaration[]): ScheduleRow {
  return {
    ...namesOf(row, methods),
    stepKey: null,
    act: null,
    stepTitle: heldWords[row.held],
    opensAt: null,
    closesAt: null,
    urgency: 'any-time',
    started: true,
    held: row.held,
  }
}

function namesOf(row: OpenTest | HeldTest, methods: readonly MethodDeclaration[]) {
  const { testId, itemId, code, label, designId, designName, projectName, methodKey } = row
  const { assigneeId, assigneeName, assigneeInitials } = row
  return {
    ...{ testId, itemId, code, label, designId, designName, projectName, methodKey },
    form: row.form as ScheduleRow['form'],
    methodName: methodByKey(methods, methodKey)?.name ?? methodKey,
    assignee:
      assigneeId === null
        ? null
        : personName({ id: assigneeId, name: assigneeName ?? '', initials: assigneeInitials ?? '' }),
  }
}

/** What a manager asks first. Each number is that of exactly the rows it speaks of. */
export function countsOf(
  rows: readonly ScheduleRow[],
  zone: string,
  now: Date,
): Omit<Schedule['counts'], 'decisionsElsewhere'> {
  const today = dayIn(zone, now)
  const count = (fits: (row: ScheduleRow) => boolean) => rows.filter(fits).length
  return {
    late: count(({ urgency }) => urgency === 'late'),
    dueToday: count(
      ({ urgency, closesAt }) => urgency !== 'late' && closesAt !== null && dayIn(zone, new Date(closesAt)) === today,
    ),
    stuck: count(isStuck),
    // What is ended has nothing to be given to anybody.
    unassigned: count(({ assignee, stepKey }) => assignee === null && stepKey !== null),
    waitingDecision: count(({ held }) => held === 'decision'),
  }
}
