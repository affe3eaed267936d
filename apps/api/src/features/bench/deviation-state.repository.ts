import type { RowsSql } from '#platform/sql-rows'
import { decidingKinds } from './holds.repository.ts'

/** Whether a deviation is decided or closed; notes decide nothing. */
export async function isDecided(sql: RowsSql, deviationId: string): Promise<boolean> {
  const found = await sql.rows(
    `select id from deviation_event where lab_id = $1::uuid and deviation_id = $2::uuid and kind in ${decidingKinds} limit 1`,
    [sql.actor.labId, deviationId],
  )
  return found.length > 0
}
