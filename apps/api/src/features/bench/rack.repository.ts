import type { Reading } from '@curebook/contract/bench'
import { readingViews } from './reading-view.ts'
import type { RowsSql } from '#platform/sql-rows'

type RackQuery = {
  methodKey: string
  stepKey: string
  readingKey: string
  designId: string | null
  dueIds: readonly string[]
  earlierSteps: readonly string[]
}
type DoneRow = { testId: string; code: string; label: string; opensAt: null; closesAt: null }

/** How long a weighed specimen stays on the rack's list, so that a slip can be put right where it was made. */
const stayHours = 12

/** Readings of the rack's specimens: those weighed lately at this step, and the earlier weighings of all. */
export async function rackReadings(
  sql: RowsSql,
  { methodKey, stepKey, readingKey, designId, dueIds, earlierSteps }: RackQuery,
) {
  const since = new Date(sql.at.getTime() - stayHours * 3_600_000)
  const done = await sql.rows<Omit<DoneRow, 'opensAt' | 'closesAt'>>(
    `select t.id as "testId", i.code, t.label
       from slot_now s
       join test_event t on t.lab_id = s.lab_id and t.id = s.test_id and t.method_key = $2
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state not in ('void', 'replaced')
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
      where s.lab_id = $1::uuid and s.step_key = $3 and s.key = $4 and s.event_at >= $5::timestamptz and ($6::uuid is null or r.design_id = $6::uuid)
      order by s.event_at, t.label, i.code`,
    [sql.actor.labId, methodKey, stepKey, readingKey, since, designId],
  )
  const ids = [...new Set([...dueIds, ...done.map(({ testId }) => testId)])]
  const readings: Reading[] = await readingViews(sql, { testIds: ids })
  const earlier = readings
    .filter((reading) => !reading.superseded && reading.key === readingKey && earlierSteps.includes(reading.stepKey))
    .map(({ testId, stepKey: step, typed }) => ({ testId, step, typed }))
  const doneToday = done
    .filter(({ testId }) => !dueIds.includes(testId))
    .map((row): DoneRow => ({ ...row, opensAt: null, closesAt: null }))
  return { readings: readings.filter(({ key }) => key === readingKey), doneToday, earlier }
}
