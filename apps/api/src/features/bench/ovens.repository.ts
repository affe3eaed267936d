import type { Ovens } from '@curebook/contract/loads'
import type { RowsSql } from '#platform/sql-rows'

type OvenRow = Pick<Ovens['instruments'][number], 'id' | 'code' | 'name' | 'kind'> & { readonly state: string }
type ReaderRow = Omit<Ovens['readers'][number], 'fault'>

/** The laboratory's ovens and baths, those out of service too. */
export function findOvens(sql: RowsSql): Promise<OvenRow[]> {
  return sql.rows(
    `select id, code, name, kind, state from instrument where lab_id = $1::uuid and kind in ('oven', 'bath') and withdrawn_at is null order by kind desc, code`,
    [sql.actor.labId],
  )
}

/** Balances and thermometers in service: what loads are read with. */
export function findReaders(sql: RowsSql): Promise<ReaderRow[]> {
  return sql.rows(
    `select id, code, name, kind from instrument where lab_id = $1::uuid and kind in ('balance', 'thermometer') and state <> 'out' order by code`,
    [sql.actor.labId],
  )
}
