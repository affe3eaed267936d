import type { Ovens } from '@curebook/contract/loads'
import type { RowsSql } from '#platform/sql-rows'

/** The laboratory's ovens and baths that are in service. */
export function findOvens(sql: RowsSql): Promise<Omit<Ovens['instruments'][number], 'loads'>[]> {
  return sql.rows(
    `select id, code, name, kind from instrument where lab_id = $1::uuid and kind in ('oven', 'bath') and state <> 'out' order by kind desc, code`,
    [sql.actor.labId],
  )
}
