import type { BenchLookup, BenchQueue, BenchTask, Rack } from '@curebook/contract/bench'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { putInWindowOf } from '@curebook/trade/procedure/put-in'
import { urgencyOf, urgencyOrder } from '@curebook/trade/procedure/urgency'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField } from '#platform/problem'
import { dueRows, dueRowsOfStep, lookUpCode, type DueRow } from './bench-queue.repository.ts'
import { rackReadings } from './rack.repository.ts'
import { castPlacesOf, type CastPlace } from './casting-order.ts'
import { findCastables } from './casting.repository.ts'
import type { SettleContext } from './settle.ts'
import { methodOf } from './settle.ts'
import { rowsSql } from '#platform/sql-rows'

export type BenchQueueService = ReturnType<typeof createBenchQueueService>

/** What waits at the bench: by person, by code, by rack. */
export function createBenchQueueService({
  laboratory,
  methods,
}: { laboratory: Laboratory } & Pick<SettleContext, 'methods'>) {
  function queue(actor: Actor, { whose }: { whose: 'mine' | 'all' }): Promise<BenchQueue> {
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      const rows = await dueRows(sql, { assigneeId: whose === 'mine' ? actor.membershipId : null, limit: 500 })
      const now = sql.at.toISOString()
      const places = castPlacesOf(await findCastables(sql, designsCasting(rows)))
      const tasks = rows
        .map((row) => toTask(methods, row, now, places))
        .sort((a, b) => urgencyOrder.indexOf(a.urgency) - urgencyOrder.indexOf(b.urgency))
      return { now, tasks }
    })
  }

  function lookUp(actor: Actor, typed: string): Promise<BenchLookup> {
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const code = typed.trim().toUpperCase()
      const [found] = await lookUpCode(rowsSql(raw), code)
      if (!found)
        throw new AppError(
          'not-found',
          `No specimen “${code}” here. Look at the code on the felt, plate or bag again; it has four or five characters.`,
        )
      const sentence =
        found.testId === null ? `${found.label} is a sample; no test is done on it.` : `${found.label} (${found.code})`
      return { itemId: found.itemId, code: found.code, label: found.label, testId: found.testId, sentence }
    })
  }

  function rack(
    actor: Actor,
    {
      methodKey,
      stepKey,
      readingKey,
      designId,
    }: { methodKey: string; stepKey: string; readingKey: string; designId: string | null },
  ): Promise<Rack> {
    const method = methodByKey(methods, methodKey)
    const step = method?.steps.find(({ key }) => key === stepKey)
    const declaration = step?.readings.find(({ key }) => key === readingKey)
    if (!method || !declaration) throw invalidField('readingKey', 'No method has such a reading at this step.')
    const earlierSteps = method.steps.filter(
      (other) => other.key !== stepKey && other.readings.some(({ key }) => key === readingKey),
    )
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      const due = await dueRowsOfStep(sql, { methodKey, stepKey, designId })
      const { readings, doneToday, earlier } = await rackReadings(sql, {
        methodKey,
        stepKey,
        readingKey,
        designId,
        dueIds: due.map(({ testId }) => testId),
        earlierSteps: earlierSteps.map(({ key }) => key),
      })
      const titleOf = new Map(earlierSteps.map(({ key, title }) => [key, title]))
      const rows = [...due.map((row) => ({ ...row, reading: null })), ...doneToday].map((row) => ({
        testId: row.testId,
        code: row.code,
        label: row.label,
        earlier: earlier
          .filter(({ testId }) => testId === row.testId)
          .map(({ step: key, typed }) => ({ label: titleOf.get(key) ?? key, typed })),
        reading:
          readings.find(
            (reading) => reading.testId === row.testId && reading.stepKey === stepKey && !reading.superseded,
          ) ?? null,
        opensAt: row.opensAt?.toISOString() ?? null,
        closesAt: row.closesAt?.toISOString() ?? null,
      }))
      return { now: sql.at.toISOString(), methodKey, stepKey, readingKey, rows }
    })
  }

  return { queue, lookUp, rack }
}

/** Designs with something to cast: only those are asked for their casting order. */
function designsCasting(rows: readonly DueRow[]): readonly string[] {
  const casting = rows.filter(({ form, stepKey }) => form === 'batch' || stepKey === 'cast')
  return [...new Set(casting.flatMap(({ designId }) => (designId === null ? [] : [designId])))]
}

/** Whether the act is a put-in or a run that one machine does for one specimen after another. */
function isPutIn(method: MethodDeclaration, { stepKey, act }: DueRow): boolean {
  const window = putInWindowOf(method)
  return window !== null && act === 'start' && (stepKey === window.step || stepKey === window.after.step)
}

function toTask(
  methods: readonly MethodDeclaration[],
  row: DueRow,
  now: string,
  places: ReadonlyMap<string, CastPlace>,
): BenchTask {
  const method = methodOf(methods, row.methodKey)
  const step = method.steps.find(({ key }) => key === row.stepKey)
  const [opensAt, closesAt] = [row.opensAt?.toISOString() ?? null, row.closesAt?.toISOString() ?? null]
  const { emulsionPercent: _, ...rest } = row
  return {
    ...rest,
    form: row.form as BenchTask['form'],
    designId: row.designId ?? '',
    designName: row.designName ?? '',
    methodName: method.shortName,
    stepTitle: step?.title ?? row.stepKey,
    actLabel: row.act === 'reading' ? (step?.title ?? row.stepKey) : (step?.eventLabels?.[row.act] ?? row.act),
    opensAt,
    closesAt,
    urgency: urgencyOf(opensAt, closesAt, now),
    putIn: isPutIn(method, row),
    castPlace: toCastPlace(
      methods,
      row.form === 'batch' || row.stepKey === 'cast' ? places.get(row.testId) : undefined,
    ),
  }
}

function toCastPlace(methods: readonly MethodDeclaration[], place: CastPlace | undefined): BenchTask['castPlace'] {
  if (place === undefined) return null
  const { shortName, form } = methodOf(methods, place.methodKey)
  return { ...place, methodName: shortName, form }
}
