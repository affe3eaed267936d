import type { Ovens } from '@curebook/contract/loads'
import type { RowsSql } from '#platform/sql-rows'

type OvenRow = Pick<Ovens['instruments'][number], 'id' | 'code' | 'name' | 'kind'> & { readonly state: string }

/** The laboratory's ovens and baths, those out of service too. */
export function findOvens(sql: RowsSql): Promise<OvenRow[]> {
  return sql.rows(
    `select id, code, name, kind, state from instrument where lab_id = $1::uuid and kind in ('oven', 'bath') order by kind desc, code`,
    [sql.actor.labId],
  )
}
