import type { RowsSql } from '#platform/sql-rows'
import { decidingKinds, type HoldCause } from './holds.repository.ts'

/** The undecided deviation of this load and cause: of the instrument, or of readings by this person. */
export async function findOpenOfLoad(
  sql: RowsSql,
  loadId: string,
  cause: Pick<HoldCause, 'kind' | 'instrumentId'>,
): Promise<string | null> {
  const [found] = await sql.rows<{ id: string }>(
    `select d.id from deviation d
      where d.lab_id = $1::uuid and d.kind = $3 and d.opened_by_rule and d.test_id is null
        and d.instrument_id is not distinct from $4::uuid
        and not exists (select from deviation_event e where e.lab_id = d.lab_id and e.deviation_id = d.id and e.kind in ${decidingKinds})
        and exists (select from reading_hold h join reading r on r.lab_id = h.lab_id and r.id = h.reading_id
                     where h.lab_id = d.lab_id and h.deviation_id = d.id and r.load_id = $2::uuid and ($3 <> 'competence' or r.by_id = $5::uuid))
      order by d.at, d.id limit 1`,
    [sql.actor.labId, loadId, cause.kind, cause.instrumentId, sql.actor.membershipId],
  )
  return found?.id ?? null
}

/** The load that a deviation's readings are of; null where they are of none. */
export async function findLoadOf(sql: RowsSql, deviationId: string): Promise<string | null> {
  const [found] = await sql.rows<{ loadId: string }>(
    `select r.load_id as "loadId" from deviation d join reading r on r.lab_id = d.lab_id and r.id = d.reading_id
      where d.lab_id = $1::uuid and d.id = $2::uuid and r.load_id is not null`,
    [sql.actor.labId, deviationId],
  )
  return found?.loadId ?? null
}

type HeldText = {
  readonly readingId: string
  readonly deviationId: string
  readonly text: string
  readonly insideWord: string | null
}

/** What each of these readings waits for. */
export function findHeldTexts(sql: RowsSql, readingIds: readonly string[]): Promise<HeldText[]> {
  return sql.rows<HeldText>(
    `select h.reading_id as "readingId", d.id as "deviationId", d.text, d.inside_word as "insideWord"
       from reading_hold h join deviation d on d.lab_id = h.lab_id and d.id = h.deviation_id
      where h.lab_id = $1::uuid and h.reading_id = any($2::uuid[])
        and not exists (select from deviation_event e where e.lab_id = h.lab_id and e.deviation_id = h.deviation_id and e.kind = 'release')
      order by d.at, d.id`,
    [sql.actor.labId, readingIds],
  )
}
