import type { Load, LoadMoved, OpenLoad, Ovens, PutIn, ReadLoad, TakeOut } from '@curebook/contract/loads'
import type { Actor } from '#platform/actor'
import { isUniqueViolation } from '#platform/database-errors'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField } from '#platform/problem'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { tellTime } from './event-time.ts'
import { loadIn, standingIn, viewsOf } from './load-at-hand.ts'
import { toSpecimen, waitingFor } from './load-view.ts'
import { keepReading, keepTemperature } from './load-readings.ts'
import { openWithoutConstantMass } from './load-out.ts'
import { rowsForIn, rowsForOut } from './load-rows.ts'
import { findLoads, findMembers, insertLoad, lockLoad } from './loads.repository.ts'
import { findInstrument } from './readings.repository.ts'
import type { SettleContext } from './settle.ts'
import { findStepEvents } from './step-events.repository.ts'
import { confirmRows } from './step-events.service.ts'
import { findOvens } from './ovens.repository.ts'

export type LoadsService = ReturnType<typeof createLoadsService>

/** How long a load with nothing in it yet is shown. */
const emptyMs = 12 * 3_600_000

/** Loads of ovens and baths: one confirmation for many specimens, of whatever projects, each keeping its own act. */
export function createLoadsService({ laboratory, methods, build }: { laboratory: Laboratory } & SettleContext) {
  const context = { methods, build }
  const inRows = <T>(actor: Actor, work: (sql: RowsSql) => Promise<T>): Promise<T> => {
    const once = () => laboratory.inLaboratorySql(actor, (raw) => work(rowsSql(raw)))
    return once().catch((error: unknown) => {
      // The same message arrived twice at once; the second look sees the first.
      if (isUniqueViolation(error)) return once()
      throw error
    })
  }

  const oneIn = (sql: RowsSql, id: string) => loadIn(sql, methods, id)

  const list = (actor: Actor): Promise<Ovens> =>
    inRows(actor, async (sql) => {
      const { rows, standing } = await standingIn(sql, methods)
      const ids = [...new Set(standing.flatMap(({ loadId }) => loadId ?? []))]
      const loads = await findLoads(sql, ids, new Date(sql.at.getTime() - emptyMs))
      const views = await viewsOf(sql, loads, standing)
      const filled = new Set(
        (
          await findMembers(
            sql,
            loads.map(({ id }) => id),
          )
        ).map(({ loadId }) => loadId),
      )
      const alone = standing.filter(({ loadId }) => loadId === null)
      const instruments = (await findOvens(sql)).map(({ state, ...instrument }) => ({
        inService: state !== 'out',
        ...instrument,
        // An empty load is one that nothing was put into yet; one that was let out stands here no more.
        loads: views.filter(
          (load) => load.instrumentId === instrument.id && (load.specimens.length > 0 || !filled.has(load.id)),
        ),
        alone: alone.filter(({ instrumentId }) => instrumentId === instrument.id).map(toSpecimen),
      }))
      const shown = new Set(instruments.map(({ id }) => id))
      return {
        now: sql.at.toISOString(),
        instruments: instruments.flatMap(({ inService, ...one }) =>
          inService || one.loads.length > 0 || one.alone.length > 0 ? [one] : [],
        ),
        waiting: waitingFor(methods, rows),
        unplaced: alone
          .filter(({ instrumentId }) => instrumentId === null || !shown.has(instrumentId))
          .map((one) => ({ ...toSpecimen(one), kind: one.kind })),
      }
    })

  const open = (actor: Actor, input: OpenLoad): Promise<{ created: boolean; value: Load }> =>
    inRows(actor, async (sql) => {
      const instrument = await findInstrument(sql, input.instrumentId)
      if (instrument?.kind !== 'oven' && instrument?.kind !== 'bath')
        throw invalidField('instrumentId', 'A load stands in an oven or a bath. Choose one of the list.')
      const told = tellTime(input.time, sql.at)
      const created = await insertLoad(sql, {
        id: input.id,
        kind: instrument.kind,
        instrumentId: instrument.id,
        place: instrument.code,
        openedAt: told.effectiveAt,
      })
      if (created)
        sql.record({
          action: 'load:create',
          subjectKind: 'load',
          subjectId: input.id,
          topics: ['loads'],
          content: { instrument: instrument.id, openedAt: told.effectiveAt.toISOString() },
        })
      const value = await oneIn(sql, input.id)
      if (value.instrumentId !== instrument.id)
        throw new AppError('conflict', 'Another load stands under this id. Open the new one under an id of its own.', {
          extra: { stored: value, sent: input },
        })
      return { created, value }
    })

  async function move(actor: Actor, id: string, input: TakeOut, kind: 'start' | 'end'): Promise<LoadMoved> {
    return inRows(actor, async (sql) => {
      await lockLoad(sql, id)
      const before = await oneIn(sql, id)
      const known = new Set(
        (
          await findStepEvents(
            sql,
            input.rows.map((row) => row.id),
          )
        ).map((event) => event.id),
      )
      const { rows, refused } =
        kind === 'start' ? await rowsForIn(sql, methods, before, input.rows) : rowsForOut(before, input.rows, known)
      const { instrumentId } = before
      const confirmed = await confirmRows(sql, context, { kind, loadId: id, rows, instrumentId, time: input.time })
      const outcome = { rows: [...confirmed.rows, ...refused] }
      await keepTemperature(sql, before, input)
      const fresh = new Set(input.rows.flatMap((row) => (known.has(row.id) ? [] : [row.testId])))
      const moved = outcome.rows.flatMap((row) => (row.outcome === 'done' && fresh.has(row.id) ? [row.id] : []))
      const deviationId = kind === 'end' ? await openWithoutConstantMass(sql, before, moved, input) : null
      return { outcome, load: await oneIn(sql, id), deviationId }
    })
  }

  return {
    list,
    read: (actor: Actor, id: string) => inRows(actor, (sql) => oneIn(sql, id)),
    open,
    putIn: (actor: Actor, id: string, input: PutIn) => move(actor, id, { ...input, word: '' }, 'start'),
    takeOut: (actor: Actor, id: string, input: TakeOut) => move(actor, id, input, 'end'),
    /** A temperature, or a check specimen weighed warm. */
    keep: (actor: Actor, id: string, input: ReadLoad): Promise<{ created: boolean; value: Load }> =>
      inRows(actor, async (sql) => {
        await lockLoad(sql, id)
        const created = await keepReading(sql, await oneIn(sql, id), input)
        return { created, value: await oneIn(sql, id) }
      }),
  }
}
