import type { Load, PutIn, ReadLoad } from '@curebook/contract/loads'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { loadReadings } from '@curebook/trade/procedure/load-reading'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { digestOf } from '#platform/canonical-json'
import { AppError, invalidField } from '#platform/problem'
import type { RowsSql } from '#platform/sql-rows'
import { tellTime } from './event-time.ts'
import { holdUnfitLoad } from './load-holds.ts'
import { findLoadReadings, findMembers, insertLoadReading } from './loads.repository.ts'
import { findInstrument, findReading } from './readings.repository.ts'

/** As many check specimens as practice asks for: one or two of a load. Common practice, no source. */
const mostChecks = 2

/** Keeps a reading of a load as typed, under the load's lock. @returns false when this very reading stands already */
export async function keepReading(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  load: Load,
  input: ReadLoad,
  path = 'typed',
): Promise<boolean> {
  const requestDig = digestOf({ ...input, time: { ...input.time, sentAt: undefined }, load: load.id })
  const stored = await findReading(sql, input.id)
  if (stored) {
    if (Buffer.compare(Buffer.from(stored.requestDig), requestDig) === 0) return false
    throw new AppError('conflict', 'Another reading stands under this id. Send the new one under an id of its own.', {
      extra: { sent: input },
    })
  }
  const corrected = input.supersedes && (await correctedOf(sql, load, input))
  if (input.testId !== null && !corrected) await checkMember(sql, load, input.testId)
  // A slip put right was read with what the first was read with.
  const instrumentId = corrected ? corrected.instrumentId : input.instrumentId
  const instrument = instrumentId === null ? null : await findInstrument(sql, instrumentId)
  if (instrumentId !== null && !instrument)
    throw invalidField('instrumentId', 'This instrument is not in the laboratory’s list. Choose one that is.')
  const capacity = instrument?.range && instrument.unit ? { value: instrument.range, unit: instrument.unit } : undefined
  const declaration = loadReadings[input.key]
  const checked = checkReading(declaration, input.typed, capacity ? { capacity } : {})
  if (!checked.ok) throw invalidField(path, checked.message)
  const told = tellTime(input.time, sql.at)
  const row = await insertLoadReading(sql, {
    id: input.id,
    loadId: load.id,
    stepKey: input.key,
    key: input.testId ?? input.key,
    typed: input.typed,
    value: checked.value,
    unit: declaration.unit,
    instrumentId: instrument?.id ?? null,
    calibrationId: instrument?.calibrationId ?? null,
    requestDig,
    told: corrected ? { ...told, eventAt: corrected.at, offsetMs: 0, effectiveAt: corrected.at } : told,
    supersedes: corrected && { ...input.supersedes!, repeat: corrected.repeat },
  })
  const held = await holdUnfitLoad(sql, methods, {
    load,
    readingId: input.id,
    testId: input.testId,
    instrument,
    actedAt: corrected ? corrected.at : told.effectiveAt,
    toldAt: told.effectiveAt,
    slipOf: corrected ? corrected.id : null,
  })
  sql.record({
    action: 'load:update',
    subjectKind: 'reading',
    subjectId: input.id,
    topics: ['loads', ...(held.length > 0 ? ['deviations'] : [])],
    content: {
      load: load.id,
      ...(input.supersedes ? { supersedes: input.supersedes.id, reason: input.supersedes.reason } : {}),
    },
    rows: [row, ...held],
  })
  return true
}

/** The temperature read when specimens went in or out, where one was. */
export async function keepTemperature(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  load: Load,
  { temperature, time }: Pick<PutIn, 'temperature' | 'time'>,
): Promise<void> {
  if (!temperature) return
  await keepReading(
    sql,
    methods,
    load,
    { ...temperature, key: 'temperature', testId: null, supersedes: null, time },
    'temperature.typed',
  )
}

/** The reading that is put right: it must stand, and be of the same kind. */
async function correctedOf(sql: RowsSql, load: Load, { key, testId, supersedes }: ReadLoad) {
  const standing = (await findLoadReadings(sql, [load.id])).find(({ id }) => id === supersedes!.id)
  if (!standing)
    throw new AppError(
      'conflict',
      'This reading was corrected meanwhile, or is of another load. Look at the one that stands.',
      {
        extra: { sent: supersedes },
      },
    )
  if (standing.stepKey !== key || standing.key !== (testId ?? key))
    throw invalidField('supersedes.id', 'A correction is of the same quantity and specimen as what it corrects.')
  return standing
}

async function checkMember(sql: RowsSql, load: Load, testId: string): Promise<void> {
  const members = await findMembers(sql, [load.id])
  if (!members.some((member) => member.testId === testId))
    throw invalidField('testId', 'This specimen is not of this load. Choose one that was put in with it.')
  const others = load.checks.filter(
    (check) => check.testId !== testId && !check.weighings.every(({ leftOut }) => leftOut),
  )
  if (others.length >= mostChecks)
    throw invalidField(
      'testId',
      `${others.map(({ label, code }) => `${label} (${code})`).join(' and ')} are this load’s check specimens. Weigh one of them.`,
    )
}
