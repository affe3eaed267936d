import type { Load, LoadMoved, OpenLoad, Ovens, PutIn, ReadLoad, TakeOut } from '@curebook/contract/loads'
import type { Actor } from '#platform/actor'
import { twice } from '#platform/database-errors'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField } from '#platform/problem'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { tellTime } from './event-time.ts'
import { faultsToday } from './instrument-faults.ts'
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
import { findOvens, findReaders } from './ovens.repository.ts'

export type LoadsService = ReturnType<typeof createLoadsService>

/** Ends the transaction of a move that moves nothing: whatever it wrote on the way is undone, and this is its answer. */
class NothingMoved extends Error {
  readonly moved: LoadMoved
  constructor(moved: LoadMoved) {
    super('Nothing moved')
    this.moved = moved
  }
}

/** How long a load with nothing in it yet is shown. */
const emptyMs = 12 * 3_600_000

/** Loads of ovens and baths: one confirmation for many specimens, of whatever projects, each keeping its own act. */
export function createLoadsService({ laboratory, methods, build }: { laboratory: Laboratory } & SettleContext) {
  const context = { methods, build }
  const inRows = <T>(actor: Actor, work: (sql: RowsSql) => Promise<T>): Promise<T> =>
    twice(() => laboratory.inLaboratorySql(actor, (raw) => work(rowsSql(raw))))

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
      const [places, readers] = [await findOvens(sql), await findReaders(sql)]
      const faults = await faultsToday(sql, [...places, ...readers])
      const instruments = places.map(({ state, ...instrument }) => ({
        inService: state !== 'out',
        ...instrument,
        fault: faults.get(instrument.id) ?? null,
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
        readers: readers.map((reader) => ({ ...reader, fault: faults.get(reader.id) ?? null })),
        waiting: waitingFor(methods, rows),
        unplaced: alone
          .filter(({ instrumentId }) => instrumentId === null || !shown.has(instrumentId))
          .map((one) => ({ ...toSpecimen(one), kind: one.kind })),
      }
    })

  /** Opens a load in the transaction of the caller, once; under the id of another one it is refused. */
  async function openIn(
    sql: RowsSql,
    input: OpenLoad,
    path = 'instrumentId',
  ): Promise<{ created: boolean; value: Load }> {
    const instrument = await findInstrument(sql, input.instrumentId)
    if (instrument?.kind !== 'oven' && instrument?.kind !== 'bath')
      throw invalidField(path, 'A load stands in an oven or a bath. Choose one of the list.')
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
  }

  async function move(
    actor: Actor,
    id: string,
    input: TakeOut & Pick<PutIn, 'opens'>,
    kind: 'start' | 'end',
  ): Promise<LoadMoved> {
    const made = inRows(actor, async (sql) => {
      await lockLoad(sql, id)
      if (input.opens !== null) await openIn(sql, { id, instrumentId: input.opens, time: input.time }, 'opens')
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
      // A load that nothing went into was not opened; and what was read when nothing went in or came out is no temperature of
      // it: it goes with the act that is confirmed in its place. The load in the answer is as it stands, or as it would have
      // been opened.
      if (outcome.rows.every((row) => row.outcome === 'refused'))
        throw new NothingMoved({ outcome, load: before, deviationId: null })
      // Read for those that stand in it: what was just put in stands there too.
      await keepTemperature(sql, methods, kind === 'start' ? await oneIn(sql, id) : before, input)
      const fresh = new Set(input.rows.flatMap((row) => (known.has(row.id) ? [] : [row.testId])))
      const moved = outcome.rows.flatMap((row) => (row.outcome === 'done' && fresh.has(row.id) ? [row.id] : []))
      const deviationId =
        kind === 'end'
          ? await openWithoutConstantMass(sql, before, moved, {
              word: input.word,
              at: tellTime(input.time, sql.at).effectiveAt,
            })
          : null
      return { outcome, load: await oneIn(sql, id), deviationId }
    })
    return made.catch((cause: unknown) => {
      if (cause instanceof NothingMoved) return cause.moved
      throw cause
    })
  }

  return {
    list,
    read: (actor: Actor, id: string) => inRows(actor, (sql) => oneIn(sql, id)),
    open: (actor: Actor, input: OpenLoad) => inRows(actor, (sql) => openIn(sql, input)),
    /** Into a load that stands, where `opens` is left out: the stories and tests open theirs apart. */
    putIn: (
      actor: Actor,
      id: string,
      { opens = null, ...input }: Omit<PutIn, 'opens'> & Partial<Pick<PutIn, 'opens'>>,
    ) => move(actor, id, { ...input, opens, word: '' }, 'start'),
    takeOut: (actor: Actor, id: string, input: TakeOut) => move(actor, id, { ...input, opens: null }, 'end'),
    /** A temperature, or a check specimen weighed warm. */
    keep: (actor: Actor, id: string, input: ReadLoad): Promise<{ created: boolean; value: Load }> =>
      inRows(actor, async (sql) => {
        await lockLoad(sql, id)
        const created = await keepReading(sql, methods, await oneIn(sql, id), input)
        return { created, value: await oneIn(sql, id) }
      }),
  }
}
