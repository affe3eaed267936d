import type { RowsSql } from '#platform/sql-rows'

/** Tests that were put into this oven or bath since an instant, by a load or by the instrument that the act names. */
export function findPutIn(sql: RowsSql, instrumentId: string, since: Date) {
  return sql.rows<{ testId: string; methodKey: string; parametersText: string; designId: string | null }>(
    `select distinct t.id as "testId", t.method_key as "methodKey", e.parameters as "parametersText", r.design_id as "designId"
       from step_event s
       join test_event t on t.lab_id = s.lab_id and t.id = s.test_id
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state not in ('void', 'replaced')
       join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
       left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       left join load l on l.lab_id = s.lab_id and l.id = s.load_id
       left join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id and u.instrument_id = $2::uuid
      where s.lab_id = $1::uuid and s.kind = 'start' and s.event_at >= $3::timestamptz
        and (l.instrument_id = $2::uuid or u.instrument_id = $2::uuid)`,
    [sql.actor.labId, instrumentId, since],
  )
}

/** Which acts put a test into this instrument: their steps. */
export function findStepsInto(sql: RowsSql, instrumentId: string, testIds: readonly string[]) {
  return sql.rows<{ testId: string; step: string; loadId: string | null }>(
    `select distinct s.test_id as "testId", s.step_key as step, s.load_id as "loadId"
       from step_event s
       left join load l on l.lab_id = s.lab_id and l.id = s.load_id
       left join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id and u.instrument_id = $2::uuid
      where s.lab_id = $1::uuid and s.kind = 'start' and s.test_id = any($3::uuid[])
        and (l.instrument_id = $2::uuid or u.instrument_id = $2::uuid)
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)`,
    [sql.actor.labId, instrumentId, testIds],
  )
}

export type PlaceOfStay = {
  readonly testId: string
  readonly step: string
  readonly id: string
  readonly code: string
  readonly kind: 'oven' | 'bath'
}

/** Into which oven or bath each act of these tests put them, by its load or by the instrument that it names. */
export function findPlacesOf(sql: RowsSql, testIds: readonly string[]): Promise<PlaceOfStay[]> {
  return sql.rows<PlaceOfStay>(
    `select distinct s.test_id as "testId", s.step_key as step, i.id, i.code, i.kind
       from step_event s
       left join load l on l.lab_id = s.lab_id and l.id = s.load_id
       left join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id
       join instrument i on i.lab_id = s.lab_id and i.id in (l.instrument_id, u.instrument_id) and i.kind in ('oven', 'bath')
      where s.lab_id = $1::uuid and s.kind = 'start' and s.test_id = any($2::uuid[])
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)`,
    [sql.actor.labId, testIds],
  )
}
