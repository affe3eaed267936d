import type { Load, PutIn, ReadLoad } from '@curebook/contract/loads'
import type { ReadingDeclaration } from '@curebook/trade/procedure/declaration'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { digestOf } from '#platform/canonical-json'
import { AppError, invalidField } from '#platform/problem'
import type { RowsSql } from '#platform/sql-rows'
import { tellTime } from './event-time.ts'
import { findLoadReadings, findMembers, insertLoadReading } from './loads.repository.ts'
import { findInstrument, findReading } from './readings.repository.ts'

/** As many check specimens as practice asks for: one or two of a load. Common practice, no source. */
const mostChecks = 2

const declarations: Readonly<Record<ReadLoad['key'], ReadingDeclaration>> = {
  temperature: { key: 'temperature', label: 'Temperature', kind: 'number', unit: '°C', resolution: '0.1' },
  'warm-mass': { key: 'warm-mass', label: 'Mass, warm', kind: 'number', unit: 'g', resolution: '0.1' },
}

/** Keeps a reading of a load as typed, under the load's lock. @returns false when this very reading stands already */
export async function keepReading(sql: RowsSql, load: Load, input: ReadLoad, path = 'typed'): Promise<boolean> {
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
  const instrument = input.instrumentId === null ? null : await findInstrument(sql, input.instrumentId)
  if (input.instrumentId !== null && !instrument)
    throw invalidField('instrumentId', 'This instrument is not in the laboratory’s list. Choose one that is.')
  const capacity = instrument?.range && instrument.unit ? { value: instrument.range, unit: instrument.unit } : undefined
  const declaration = declarations[input.key]
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
    unit: declaration.unit!,
    instrumentId: instrument?.id ?? null,
    calibrationId: instrument?.calibrationId ?? null,
    requestDig,
    told: corrected ? { ...told, eventAt: corrected.at, offsetMs: 0, effectiveAt: corrected.at } : told,
    supersedes: corrected && { ...input.supersedes!, repeat: corrected.repeat },
  })
  sql.record({
    action: 'load:update',
    subjectKind: 'reading',
    subjectId: input.id,
    topics: ['loads'],
    content: {
      load: load.id,
      ...(input.supersedes ? { supersedes: input.supersedes.id, reason: input.supersedes.reason } : {}),
    },
    rows: [row],
  })
  return true
}

/** The temperature read when specimens went in or out, where one was. */
export async function keepTemperature(sql: RowsSql, load: Load, { temperature, time }: PutIn): Promise<void> {
  if (!temperature) return
  await keepReading(
    sql,
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
  const others = load.checks.filter((check) => check.testId !== testId)
  if (others.length >= mostChecks)
    throw invalidField(
      'testId',
      `${others.map(({ label, code }) => `${label} (${code})`).join(' and ')} are this load’s check specimens. Weigh one of them.`,
    )
}
