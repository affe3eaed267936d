import type { PersonName } from '@curebook/contract/common'
import type { RowsSql } from '#platform/sql-rows'

/** A reading that was taken back right after it was entered, read again or not. */
export type TakenBack = {
  readonly readingId: string
  readonly testId: string
  readonly typed: string
  readonly by: string
  readonly reason: string
  /** From when it was entered to when it was taken back, whole seconds. */
  readonly seconds: number
  readonly at: string
}

/** A start or end that took the place of another, by the server's clock. */
export type MovedAct = {
  readonly id: string
  readonly testId: string
  readonly stepKey: string
  readonly kind: 'start' | 'end'
  readonly from: string
  readonly to: string
  readonly by: PersonName['name']
  readonly reason: string
  readonly at: string
}

const effective = (table: string) => `${table}.event_at + coalesce(${table}.offset_ms, 0) * interval '1 millisecond'`

/**
 * Readings of tests that were taken back, in the order in which they were. One that was told for another time than now counts
 * from when it reached the server.
 */
export async function findTakenBack(sql: RowsSql, testIds: readonly string[]): Promise<TakenBack[]> {
  const rows = await sql.rows<Omit<TakenBack, 'at'> & { at: Date }>(
    `select r.id as "readingId", r.test_id as "testId", r.typed, m.name as by, w.reason, w.received_at as at,
            greatest(0, round(extract(epoch from ${effective('w')} - case when r.event_from = 'now' then ${effective('r')} else r.received_at end)))::int as seconds
       from reading_withdrawal w
       join reading r on r.lab_id = w.lab_id and r.id = w.reading_id
       join membership m on m.lab_id = w.lab_id and m.id = w.by_id
      where w.lab_id = $1::uuid and w.test_id = any($2::uuid[])
      order by w.received_at, w.id`,
    [sql.actor.labId, testIds],
  )
  return rows.map((row) => ({ ...row, at: row.at.toISOString() }))
}

/** Every time of an act that was put right, in the order in which they were; one put right again is told twice. */
export async function findMovedActs(sql: RowsSql, testIds: readonly string[]): Promise<MovedAct[]> {
  const rows = await sql.rows<Omit<MovedAct, 'from' | 'to' | 'at'> & { from: Date; to: Date; at: Date }>(
    `select s.id, s.test_id as "testId", s.step_key as "stepKey", s.kind, ${effective('o')} as "from", ${effective('s')} as "to",
            m.name as by, s.reason, s.received_at as at
       from step_event s
       join step_event o on o.lab_id = s.lab_id and o.id = s.supersedes_id
       join membership m on m.lab_id = s.lab_id and m.id = s.by_id
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[]) and s.kind in ('start', 'end')
      order by s.received_at, s.id`,
    [sql.actor.labId, testIds],
  )
  return rows.map(({ from, to, at, ...row }) => ({
    ...row,
    from: from.toISOString(),
    to: to.toISOString(),
    at: at.toISOString(),
  }))
}
