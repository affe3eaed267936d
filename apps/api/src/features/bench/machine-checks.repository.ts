import type { TestView } from '@curebook/contract/bench'
import type { RowsSql } from '#platform/sql-rows'

export type LoadCheck = NonNullable<TestView['instruments'][number]['loadCheck']>

/** The last check of each machine's load that stands, by machine. */
export async function lastLoadChecks(
  sql: RowsSql,
  instrumentIds: readonly string[],
): Promise<ReadonlyMap<string, LoadCheck>> {
  const rows = await sql.rows<{
    instrumentId: string
    typed: string
    nominal: string
    tolerance: string
    unit: string
    source: string
    passed: boolean
    checkedAt: Date
  }>(
    `select distinct on (c.instrument_id) c.instrument_id as "instrumentId", r.typed, c.nominal_text as nominal, c.tolerance_text as tolerance, c.unit, c.source, c.passed,
            r.event_at + coalesce(r.offset_ms, 0) * interval '1 millisecond' as "checkedAt"
       from instrument_check c
       join reading r on r.lab_id = c.lab_id and r.instrument_check_id = c.id
      where c.lab_id = $1::uuid and c.instrument_id = any($2::uuid[]) and c.kind = 'load' and c.nominal_text is not null
        and not exists (select from instrument_check n where n.lab_id = c.lab_id and n.supersedes_id = c.id)
      order by c.instrument_id, "checkedAt" desc, c.at desc, c.id desc`,
    [sql.actor.labId, instrumentIds],
  )
  return new Map(
    rows.map(({ instrumentId, typed, nominal, tolerance, unit, source, passed, checkedAt }) => [
      instrumentId,
      { typed, bounds: { nominal, tolerance, unit, source }, passed, checkedAt: checkedAt.toISOString() },
    ]),
  )
}
