import type { PartKind } from '@curebook/contract/machine-parts'
import type { RunPart } from '@curebook/contract/parts'
import type { RowsSql } from '#platform/sql-rows'

/** By the server's clock: as told, put right by what the device's clock was off. */
const effective = (table: string) => `${table}.event_at + coalesce(${table}.offset_ms, 0) * interval '1 millisecond'`
const standing = `not exists (select from part_fitting c where c.lab_id = f.lab_id and c.supersedes_id = f.id)`

/** A lot that was on the machine when a run began. */
export type PartOfRun = {
  readonly eventId: string
  readonly testId: string
  readonly instrumentId: string
  readonly instrument: string
  readonly startedAt: string
  readonly kind: PartKind
  readonly fittingId: string
  readonly lot: string
  readonly fittedAt: string
}

/** The lots of these tests' runs, by what is known now: a change entered late belongs to the runs after it all the same. */
export async function partsOfRuns(sql: RowsSql, testIds: readonly string[]): Promise<readonly PartOfRun[]> {
  const rows = await sql.rows<Omit<PartOfRun, 'startedAt' | 'fittedAt'> & { startedAt: Date; fittedAt: Date }>(
    `select s.id as "eventId", s.test_id as "testId", i.id as "instrumentId", i.code as instrument, ${effective('s')} as "startedAt",
            f.kind, f.id as "fittingId", l.lot, f.fitted_at as "fittedAt"
       from step_event s
       cross join lateral (
         select distinct u.instrument_id from equipment_use u where u.lab_id = s.lab_id and u.step_event_id = s.id
       ) u
       join instrument i on i.lab_id = s.lab_id and i.id = u.instrument_id
       cross join lateral (
         select distinct on (f.kind) f.id, f.kind, f.part_lot_id, ${effective('f')} as fitted_at
           from part_fitting f
          where f.lab_id = s.lab_id and f.instrument_id = u.instrument_id and ${effective('f')} <= ${effective('s')} and ${standing}
          order by f.kind, fitted_at desc, f.at desc, f.id desc
       ) f
       join part_lot l on l.lab_id = s.lab_id and l.id = f.part_lot_id
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[]) and s.kind = 'start'
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)
      order by "startedAt", s.written_at, s.id, f.kind, i.code`,
    [sql.actor.labId, testIds],
  )
  return rows.map(({ startedAt, fittedAt, ...row }) => ({
    ...row,
    startedAt: startedAt.toISOString(),
    fittedAt: fittedAt.toISOString(),
  }))
}

/** What is on these machines at a moment, by machine. */
export async function partsOn(
  sql: RowsSql,
  instrumentIds: readonly string[],
  at: Date,
): Promise<ReadonlyMap<string, readonly (RunPart & { readonly partLotId: string })[]>> {
  const rows = await sql.rows<{
    instrumentId: string
    kind: PartKind
    lot: string
    partLotId: string
    fittedAt: Date
  }>(
    `select distinct on (f.instrument_id, f.kind) f.instrument_id as "instrumentId", f.kind, l.lot, l.id as "partLotId", ${effective('f')} as "fittedAt"
       from part_fitting f join part_lot l on l.lab_id = f.lab_id and l.id = f.part_lot_id
      where f.lab_id = $1::uuid and f.instrument_id = any($2::uuid[]) and ${effective('f')} <= $3::timestamptz and ${standing}
      order by f.instrument_id, f.kind, "fittedAt" desc, f.at desc, f.id desc`,
    [sql.actor.labId, instrumentIds, at],
  )
  const byMachine = new Map<string, (RunPart & { partLotId: string })[]>()
  for (const { instrumentId, fittedAt, ...part } of rows)
    byMachine.set(instrumentId, [...(byMachine.get(instrumentId) ?? []), { ...part, fittedAt: fittedAt.toISOString() }])
  return byMachine
}
