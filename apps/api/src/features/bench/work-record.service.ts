import type { Reading, StepEvent } from '@curebook/contract/bench'
import type { SpecimenRow } from '@curebook/contract/designs'
import type { Deviation } from '@curebook/contract/deviations'
import type { Observation } from '@curebook/contract/observations'
import type { Calculation } from '@curebook/contract/results'
import type { ObservedReading } from '@curebook/trade/procedure/declaration'
import { findDeviations } from './deviations.repository.ts'
import { type PartOfRun, partsOfRuns } from './machine-parts.repository.ts'
import { findObservations } from './observations.repository.ts'
import { findMovedActs, findTakenBack, type MovedAct, type TakenBack } from './put-right.repository.ts'
import { eventViews, readingViews } from './reading-view.ts'
import { resultBriefs } from './result-view.ts'
import { observedReadings } from './standing.ts'
import { loadTests } from './test-record.repository.ts'
import { outcomeStandsSql } from './window-outcomes.repository.ts'
import { rowsSqlOf, type RowsSql } from '#platform/sql-rows'
import type { DesignsService } from '#features/designs/designs.service'
import type { LaboratoryTransaction } from '#platform/laboratory'

export { outcomeStandsSql, resultBriefs }
export type { MovedAct, PartOfRun, TakenBack }

export type WorkResult = {
  readonly id: string
  readonly testId: string
  readonly methodKey: string
  readonly key: string
  readonly value: string | null
  readonly unit: string | null
  /** Key of the class, where the result is no number. */
  readonly choice: string | null
  readonly findings: string | null
  readonly refusal: string | null
  readonly calculation: Calculation | null
}
export type DoubtfulWindow = { readonly id: string; readonly testId: string; readonly windowKey: string }

export type UncalibratedInstrument = { readonly id: string; readonly code: string; readonly readings: number }

/** Everything done on a design up to a revision, as it stands. */
export type WorkRecord = {
  readonly specimens: readonly SpecimenRow[]
  readonly readings: readonly Reading[]
  readonly events: readonly (StepEvent & { testId: string })[]
  readonly results: readonly WorkResult[]
  readonly deviations: readonly Deviation[]
  readonly doubtful: readonly DoubtfulWindow[]
  /** Lots that were on the machines of the runs, in the order of the runs. */
  readonly parts: readonly PartOfRun[]
  /** What was seen as it stands, of void specimens too. */
  readonly observations: readonly Observation[]
  /** Readings taken back right after they were entered, read again or not. */
  readonly takenBack: readonly TakenBack[]
  /** Starts and ends whose time was put right. */
  readonly movedActs: readonly MovedAct[]
  /** Instruments that were read with and hold no calibration on record. */
  readonly uncalibrated: readonly UncalibratedInstrument[]
}

export async function workRecordIn(
  tx: LaboratoryTransaction,
  designs: DesignsService,
  designId: string,
  upTo: number,
): Promise<WorkRecord> {
  const sql = rowsSqlOf(tx)
  const specimens = await designs.specimensIn(tx, designId, upTo)
  const ids = specimens.flatMap(({ testId, batchTestId }) => [testId, batchTestId])
  return {
    specimens,
    readings: await readingViews(sql, { testIds: ids }),
    events: await eventViews(sql, ids),
    results: await findWorkResults(sql, ids),
    deviations: deviationsAmong(await findDeviations(sql, { designId }), ids),
    doubtful: await findDoubtful(sql, ids),
    parts: await partsOfRuns(sql, ids),
    observations: (await findObservations(sql, { testIds: ids })).filter(({ superseded }) => !superseded),
    takenBack: await findTakenBack(sql, ids),
    movedActs: await findMovedActs(sql, ids),
    uncalibrated: await findUncalibrated(sql, ids),
  }
}

/** The readings of each test as its formula sees them: those that stand and count. */
export async function observedOf(
  sql: RowsSql,
  testIds: readonly string[],
): Promise<ReadonlyMap<string, readonly ObservedReading[]>> {
  return new Map((await loadTests(sql, testIds)).map((record) => [record.id, observedReadings(record)]))
}

async function findWorkResults(sql: RowsSql, testIds: readonly string[]): Promise<WorkResult[]> {
  const rows = await sql.rows<Omit<WorkResult, 'calculation'> & { body: string | null }>(
    `select r.id, r.test_id as "testId", r.method_key as "methodKey", r.key, r.value_text as value, r.unit, r.choice, r.findings, r.refusal_text as refusal, c.body
       from result r left join calculation c on c.lab_id = r.lab_id and c.result_id = r.id
      where r.lab_id = $1::uuid and r.test_id = any($2::uuid[]) and r.made_by = 'computed'
        and not exists (select from result n where n.lab_id = r.lab_id and n.supersedes_id = r.id)
      order by r.key, r.unit, r.id`,
    [sql.actor.labId, testIds],
  )
  return rows.map(({ body, ...row }) => ({
    ...row,
    calculation: body === null ? null : (JSON.parse(body) as Calculation),
  }))
}

/** Windows whose verdict rests on a device clock that was not together with the server's. */
function findDoubtful(sql: RowsSql, testIds: readonly string[]): Promise<DoubtfulWindow[]> {
  return sql.rows(
    `select w.id, w.test_id as "testId", w.window_key as "windowKey" from window_outcome w
      where w.lab_id = $1::uuid and w.test_id = any($2::uuid[]) and w.judged_by = 'device-clock' and ${outcomeStandsSql('w')}
      order by w.id`,
    [sql.actor.labId, testIds],
  )
}

function findUncalibrated(sql: RowsSql, testIds: readonly string[]): Promise<UncalibratedInstrument[]> {
  return sql.rows(
    `select i.id, i.code, count(*)::int as readings
       from slot_now s
       join reading r on r.lab_id = s.lab_id and r.id = s.reading_id
       join instrument i on i.lab_id = r.lab_id and i.id = r.instrument_id
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[])
        and not exists (select from calibration c where c.lab_id = i.lab_id and c.instrument_id = i.id)
      group by i.id, i.code order by i.code`,
    [sql.actor.labId, testIds],
  )
}

/** Deviations about these tests; one about a whole oven or bath names those of them that were inside, and no others. */
function deviationsAmong(deviations: readonly Deviation[], ids: readonly string[]): Deviation[] {
  return deviations.map(withNotes).flatMap((deviation) => {
    const own = deviation.specimens.filter(({ testId }) => ids.includes(testId))
    if (deviation.testId !== null) return ids.includes(deviation.testId) ? [deviation] : []
    if (deviation.specimens.length === 0) return [deviation]
    if (own.length === 0) return []
    const inside = own.map(({ label, itemCode }) => `${label} (${itemCode})`).join(', ')
    return [{ ...deviation, specimens: own, text: `${deviation.text} Inside: ${inside}.` }]
  })
}

/** What was found later about a decided one is told with it. */
function withNotes(deviation: Deviation): Deviation {
  return {
    ...deviation,
    text: [deviation.text, ...deviation.notes.map(({ text }) => `Noted since: ${text}`)].join(' '),
  }
}

/** Specimens that count: not void, a spare only in another's place. */
export function countingSpecimens({ specimens }: Pick<WorkRecord, 'specimens'>): readonly SpecimenRow[] {
  return specimens.filter(
    ({ state, purpose, replaces }) =>
      state !== 'void' && state !== 'replaced' && (purpose !== 'spare' || replaces !== null),
  )
}
