import type { RowsSql } from '#platform/sql-rows'
import type { InstrumentAtHand } from './readings.repository.ts'

/** What a step is done in or on, apart from what its readings are read with. */
export const stepInstruments: readonly string[] = ['oven', 'bath', 'wet-track-machine', 'loaded-wheel']

export type UseOfStep = Pick<InstrumentAtHand, 'id' | 'code' | 'state'> & { readonly step: string; readonly at: Date }

/** The ovens, baths and machines of a test's standing acts, with when each was used by the server's clock. */
export function findUsesOf(sql: RowsSql, testId: string): Promise<UseOfStep[]> {
  return sql.rows<UseOfStep>(
    `select distinct s.step_key as step, s.event_at + make_interval(secs => coalesce(s.offset_ms, 0) / 1000.0) as at, i.id, i.code, i.state
       from step_event s
       join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id
       join instrument i on i.lab_id = u.lab_id and i.id = u.instrument_id and i.kind = any($3::text[])
      where s.lab_id = $1::uuid and s.test_id = $2::uuid
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)
      order by at, i.code, step`,
    [sql.actor.labId, testId, stepInstruments],
  )
}
