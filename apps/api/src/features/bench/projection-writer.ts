import { urgencyOf, urgencyOrder } from '@curebook/trade/procedure/urgency'
import type { RowsSql } from '#platform/sql-rows'
import type { Standing } from './standing.ts'
import { endedStates, type TestRecord } from './test-record.ts'

/** Brings `test_now` and `due` of one test to what its record says. Both can be rebuilt at any time. */
export async function writeProjections(sql: RowsSql, record: TestRecord, standing: Standing): Promise<void> {
  const { progress, due, state } = standing
  const done = progress.steps.filter((step) => step.state === 'done').length
  await sql.rows(
    `update test_now set state = $3, step_key = $4, steps_done = $5, steps_total = $6, counts = $7 where lab_id = $1::uuid and test_id = $2::uuid`,
    [sql.actor.labId, record.id, state, progress.current, done, progress.steps.length, !endedStates.includes(state)],
  )
  await sql.rows('delete from due where lab_id = $1::uuid and test_id = $2::uuid', [sql.actor.labId, record.id])
  if (!due) return
  const urgency = urgencyOrder.indexOf(urgencyOf(due.opensAt, due.closesAt, sql.at.toISOString()))
  await sql.rows(
    `insert into due (lab_id, test_id, step_key, act, window_key, opens_at, closes_at, assignee_id, project_id, urgency)
     values ($1::uuid, $2::uuid, $3, $4, $5, $6::timestamptz, $7::timestamptz, $8::uuid, $9::uuid, $10)`,
    [
      sql.actor.labId,
      record.id,
      due.step,
      due.act,
      due.window,
      due.opensAt && new Date(due.opensAt),
      due.closesAt && new Date(due.closesAt),
      record.assigneeId,
      record.projectId,
      urgency,
    ],
  )
}
