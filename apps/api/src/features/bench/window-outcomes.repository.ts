import type { RowsSql } from '#platform/sql-rows'
import { decidingKinds } from './holds.repository.ts'

/** SQL: that no later outcome took the place of this one. */
export const notSupersededSql = (table: string) =>
  `not exists (select from window_outcome c where c.lab_id = ${table}.lab_id and c.supersedes_id = ${table}.id)`

/**
 * SQL: that an outcome says something of what stands. One that rests on a reading which was taken back says nothing until it is
 * read again; the outcome of that takes its place.
 */
export const outcomeStandsSql = (table: string) => `(${notSupersededSql(table)}
  and not exists (
    select from reading_withdrawal rw
     where rw.lab_id = ${table}.lab_id and rw.reading_id in (${table}.after_reading_id, ${table}.event_reading_id)
       and not exists (select from reading rc where rc.lab_id = rw.lab_id and rc.supersedes_id = rw.reading_id)))`

export type HeldMiss = {
  readonly id: string
  readonly outcome: string
  readonly marginS: number | null
  readonly decision: string | null
}

/** The deviations that a window of a test opened, with how each was decided; oldest first. The test is locked. */
export function findMisses(sql: RowsSql, testId: string, windowKey: string): Promise<HeldMiss[]> {
  return sql.rows<HeldMiss>(
    `select d.id, w.outcome, w.margin_s as "marginS",
            (select e.kind from deviation_event e where e.lab_id = d.lab_id and e.deviation_id = d.id
                and e.kind in ${decidingKinds} order by e.at desc, e.id desc limit 1) as decision
       from deviation d join window_outcome w on w.lab_id = d.lab_id and w.id = d.window_outcome_id
      where d.lab_id = $1::uuid and d.test_id = $2::uuid and d.kind = 'window' and d.opened_by_rule and w.window_key = $3
      order by d.at, d.id`,
    [sql.actor.labId, testId, windowKey],
  )
}
