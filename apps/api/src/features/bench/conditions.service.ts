import type {
  ConditionLog,
  CorrectCondition,
  MadeKey,
  MakeKey,
  PostConditions,
  PostedConditions,
} from '@curebook/contract/conditions'
import type { Database } from '@curebook/database/open-database'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { createHash, randomBytes } from 'node:crypto'
import { type Actor, systemActor } from '#platform/actor'
import { twice } from '#platform/database-errors'
import type { Laboratory, LaboratorySql } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { correctValue } from './condition-correction.ts'
import { logOf } from './condition-log.ts'
import { findValues, insertValues, lockLog, type NewValue } from './conditions.repository.ts'
import { findKey, findKeyById, findKeyHolder, insertKey } from './instrument-keys.repository.ts'
import { judgeLog } from './excursions.ts'
import { tellTime, type Told } from './event-time.ts'
import type { OvenAtHand } from './held-stays.ts'
import { findInstrument } from './readings.repository.ts'

export type ConditionsService = ReturnType<typeof createConditionsService>
type Source = { readonly byId: string } | { readonly keyId: string }

/** Clocks of loggers and servers are never quite together. */
const futureLeewayMs = 2 * 60_000
const temperature = { key: 'temperature', label: 'Temperature', kind: 'number', unit: '°C' } as const

/** What ovens and baths held: logged by hand or by a logger with the instrument's own key, and judged by what stood inside. */
export function createConditionsService({
  laboratory,
  database,
  methods,
}: {
  laboratory: Laboratory
  database: Database
  methods: readonly MethodDeclaration[]
}) {
  async function keep(sql: RowsSql, instrumentId: string, input: PostConditions, source: Source) {
    const oven = await ovenOf(sql, instrumentId)
    await lockLog(sql, oven.id)
    // Looked at again under the lock: a key that is ended at this moment keeps nothing any more.
    if ('keyId' in source && (await findKey(sql, oven.id))?.id !== source.keyId) throw noSuchKey()
    const told = input.time ? tellTime(input.time, sql.at) : null
    const values = readValues(input, sql.at, told)
    const fresh = await freshOf(sql, oven.id, values, told, input)
    if (fresh.length === 0) return { stored: 0, known: values.length, deviationIds: [] }
    await insertValues(sql, oven.id, fresh, source, told)
    const times = fresh.map(({ observedAt }) => observedAt.getTime())
    sql.record({
      action: 'condition:create',
      subjectKind: 'instrument',
      subjectId: oven.id,
      topics: ['loads', `conditions:${oven.id}`],
      content: {
        values: fresh.map(({ id, observedAt, typed, unit }) => ({ id, at: observedAt.toISOString(), typed, unit })),
        ...('keyId' in source ? { key: source.keyId } : {}),
        ...(told === null ? {} : { told: toldContent(told) }),
      },
    })
    const span = { from: new Date(Math.min(...times)), until: new Date(Math.max(...times)) }
    const deviationIds = await judgeLog(sql, methods, oven, span)
    return { stored: fresh.length, known: values.length - fresh.length, deviationIds }
  }

  return {
    log: (actor: Actor, instrumentId: string): Promise<ConditionLog> =>
      laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        return logOf(sql, methods, await ovenOf(sql, instrumentId))
      }),

    /** By hand. */
    add: (actor: Actor, instrumentId: string, input: PostConditions): Promise<PostedConditions> =>
      twice(() =>
        laboratory.inLaboratorySql(actor, (raw) =>
          keep(rowsSql(raw), instrumentId, input, { byId: actor.membershipId }),
        ),
      ),

    /** A mistyped value is put right by another, with the reason; the log is judged anew. */
    correct: (
      actor: Actor,
      instrumentId: string,
      valueId: string,
      input: CorrectCondition,
    ): Promise<PostedConditions> =>
      twice(() =>
        laboratory.inLaboratorySql(actor, async (raw) => {
          const sql = rowsSql(raw)
          return correctValue(sql, methods, await ovenOf(sql, instrumentId), valueId, input)
        }),
      ),

    /** By whoever holds the instrument's key: nobody's session, and nothing but values of this one instrument. */
    async post(key: string | undefined, input: PostConditions): Promise<PostedConditions> {
      const holder = key === undefined ? null : await findKeyHolder(database, hashOf(key))
      if (!holder) throw noSuchKey()
      // No row is written in anybody's name here: the values carry the key, what a rule opens carries nobody.
      return twice(() =>
        laboratory.inLaboratorySql(systemActor(holder.labId), (raw) =>
          keep(rowsSql(raw as unknown as LaboratorySql), holder.instrumentId, input, { keyId: holder.keyId }),
        ),
      )
    },

    /** Makes a key and shows it this once, or ends the one that stands; the one before ends with it. */
    makeKey(actor: Actor, instrumentId: string, input: MakeKey): Promise<{ created: boolean; value: MadeKey }> {
      const key = randomBytes(32).toString('base64url')
      return laboratory.inLaboratorySql(actor, async (raw) => {
        const sql = rowsSql(raw)
        const oven = await ovenOf(sql, instrumentId)
        await lockLog(sql, oven.id)
        const again = await findKeyById(sql, input.id)
        if (again) {
          if (again.instrumentId === oven.id) return { created: false, value: { id: input.id, key: null } }
          throw new AppError('conflict', 'Another key stands under this id. Make the new one under an id of its own.')
        }
        const before = await findKey(sql, oven.id)
        if (input.end && !before?.isKey)
          throw new AppError('wrong-state', `${oven.code} has no key that could be ended.`)
        await insertKey(sql, {
          id: input.id,
          instrumentId: oven.id,
          tokenHash: input.end ? null : hashOf(key),
          supersedesId: before?.id ?? null,
          reason: before ? (input.end ? 'Ended' : 'A new key was made') : null,
        })
        sql.record({
          action: input.end ? 'instrument-key:end' : 'instrument-key:create',
          subjectKind: 'instrument-key',
          subjectId: input.id,
          topics: [`conditions:${oven.id}`],
          content: { instrument: oven.id },
        })
        return { created: true, value: { id: input.id, key: input.end ? null : key } }
      })
    },
  }
}

const noSuchKey = () =>
  new AppError(
    'not-found',
    'This key opens no instrument’s log. The manager makes one on the screen of ovens and baths.',
  )

async function ovenOf(sql: RowsSql, instrumentId: string): Promise<OvenAtHand> {
  const found = await findInstrument(sql, instrumentId)
  if (!found) throw notFound('instrument')
  const { id, code, kind } = found
  if (kind !== 'oven' && kind !== 'bath')
    throw new AppError('wrong-state', `${code} is neither an oven nor a bath: it keeps no log of temperatures.`)
  return { id, code, kind }
}

/** What the device said of the time, as the ledger keeps it. */
function toldContent({ eventAt, eventFrom, sentAt, offsetMs, note }: Told) {
  return { eventAt: eventAt.toISOString(), eventFrom, sentAt: sentAt.toISOString(), offsetMs, note }
}

function readValues({ values }: PostConditions, now: Date, told: Told | null): NewValue[] {
  return values.map(({ id, at, value, unit = '°C' }, index) => {
    const checked = checkReading(temperature, value)
    if (!checked.ok) throw invalidField(`values.${index}.value`, checked.message)
    const observedAt = told?.effectiveAt ?? new Date(at!)
    if (observedAt.getTime() > now.getTime() + futureLeewayMs)
      throw invalidField(`values.${index}.at`, 'This time lies in the future. Give the time at which it was read.')
    return { id, observedAt, typed: value, value: checked.value, unit }
  })
}

/**
 * The values that are not stored yet; one whose id stands with another content refuses all. Told on a device it is the same
 * by that device's time: what its clock is off is reckoned anew with each sending.
 */
async function freshOf(
  sql: RowsSql,
  instrumentId: string,
  values: readonly NewValue[],
  told: Told | null,
  sent: PostConditions,
) {
  const stored = new Map(
    (
      await findValues(
        sql,
        values.map(({ id }) => id),
      )
    ).map((value) => [value.id, value]),
  )
  const other = values.find((value) => {
    const before = stored.get(value.id)
    return (
      before !== undefined &&
      (before.instrumentId !== instrumentId ||
        before.typed !== value.typed ||
        (told === null
          ? before.observedAt.getTime() !== value.observedAt.getTime()
          : before.eventAt?.getTime() !== told.eventAt.getTime()))
    )
  })
  if (other)
    throw new AppError('conflict', `Another value stands under the id ${other.id}. Nothing of this message was kept.`, {
      extra: { sent },
    })
  return [...new Map(values.map((value) => [value.id, value])).values()].filter(({ id }) => !stored.has(id))
}

function hashOf(key: string): Buffer {
  return createHash('sha256').update(key).digest()
}
