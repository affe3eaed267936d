import type { Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { urgencyOf } from '@curebook/trade/procedure/urgency'
import { dayIn } from '#platform/laboratory-day'
import { personName } from '#platform/row-values'
import type { OpenTest } from './schedule.repository.ts'

const begun: readonly (string | null)[] = ['in-work', 'done']

export function toScheduleRow(row: OpenTest, methods: readonly MethodDeclaration[], now: Date): ScheduleRow {
  const { assigneeId, assigneeName, assigneeInitials } = row
  const [opensAt, closesAt] = [row.opensAt?.toISOString() ?? null, row.closesAt?.toISOString() ?? null]
  return {
    testId: row.testId,
    itemId: row.itemId,
    code: row.code,
    label: row.label,
    designId: row.designId,
    designName: row.designName,
    projectName: row.projectName,
    methodKey: row.methodKey,
    methodName: methodByKey(methods, row.methodKey)?.name ?? row.methodKey,
    stepKey: row.stepKey,
    stepTitle:
      methodByKey(methods, row.dueMethodKey)?.steps.find(({ key }) => key === row.stepKey)?.title ?? row.stepKey,
    opensAt,
    closesAt,
    urgency: urgencyOf(opensAt, closesAt, now.toISOString()),
    assignee:
      assigneeId === null
        ? null
        : personName({ id: assigneeId, name: assigneeName ?? '', initials: assigneeInitials ?? '' }),
    started: begun.includes(row.state) || begun.includes(row.batchState),
  }
}

/** What a manager asks first. Each number is that of exactly the rows it speaks of. */
export function countsOf(
  rows: readonly ScheduleRow[],
  zone: string,
  now: Date,
): Omit<Schedule['counts'], 'waitingDecision'> {
  const today = dayIn(zone, now)
  return {
    late: rows.filter(({ urgency }) => urgency === 'late').length,
    dueToday: rows.filter(
      ({ urgency, closesAt }) => urgency !== 'late' && closesAt !== null && dayIn(zone, new Date(closesAt)) === today,
    ).length,
    unassigned: rows.filter(({ assignee }) => assignee === null).length,
  }
}
