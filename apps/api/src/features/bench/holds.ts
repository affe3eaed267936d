import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { bagFaultIn, custodyFaultIn } from '#features/custody/custody-fault.service'
import type { DrawnFrom } from '#features/custody/draws.service'
import { dayOfInstant, notAuthorisedIn } from '#features/people/authorised.service'
import type { LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { equipmentCauses } from './equipment-holds.ts'
import { toldOf } from './hold-words.ts'
import { findHolding, type HoldCause, insertHolds, openFor } from './holds.repository.ts'
import { instrumentFault } from './instrument-faults.ts'
import type { InstrumentAtHand } from './readings.repository.ts'
import type { TestRecord } from './test-record.ts'

type Judged = {
  readonly record: TestRecord
  readonly method: MethodDeclaration
  readonly stepKey: string
  readonly readingId: string
  readonly instrument: InstrumentAtHand | null
  /** When the instrument showed it: a slip put right does not move this. */
  readonly actedAt: Date
  /** When the person who posts it says that they acted. */
  readonly toldAt: Date
  /** The reading whose slip is put right: what it waits for, its correction waits for too. */
  readonly slipOf: string | null
  /** Of a component of a batch: what it is weighed out of. A bag is judged where one is named, here or before. */
  readonly drawn: DrawnFrom | null
}

/**
 * A reading is never refused for an expired calibration, its own or of the oven, bath or machine of a step that it rests on,
 * a missing authorisation or an item out of custody: it is kept, and does not count until somebody who may releases it. One
 * deviation a test and cause.
 * @returns rows for the ledger entry of the reading
 */
export async function holdUnfit(sql: RowsSql, judged: Judged): Promise<LedgerRow[]> {
  const [causes, inherited] = [
    await causesOf(sql, judged),
    judged.slipOf === null ? [] : await findHolding(sql, judged.slipOf),
  ]
  if (causes.length === 0 && inherited.length === 0) return []
  const rows: LedgerRow[] = []
  const deviationIds = new Set(inherited)
  for (const cause of causes) {
    const opened = await openFor(sql, judged.record, judged.readingId, cause)
    rows.push(...opened.rows)
    deviationIds.add(opened.id)
  }
  return [...rows, ...(await insertHolds(sql, judged.readingId, [...deviationIds]))]
}

async function causesOf(sql: RowsSql, judged: Judged): Promise<HoldCause[]> {
  const { record, method, instrument, actedAt, toldAt } = judged
  const [calibration, equipment, competence, custody] = [
    instrument && (await instrumentFault(sql, instrument, actedAt)),
    await equipmentCauses(sql, judged),
    await notAuthorisedIn(sql, {
      membershipId: sql.actor.membershipId,
      name: sql.actor.name,
      activity: `method:${method.key}`,
      label: method.name,
      day: await dayOfInstant(sql, toldAt),
    }),
    (await custodyFaultIn(sql, { itemId: record.itemId, methodKey: record.methodKey, at: actedAt })) ??
      (judged.drawn?.from.named ? await bagFaultIn(sql, judged.drawn.from.itemId, actedAt) : null),
  ]
  return [
    ...(calibration
      ? [{ kind: 'calibration' as const, text: toldOf(record, method, calibration), instrumentId: instrument!.id }]
      : []),
    ...equipment,
    ...(competence
      ? [{ kind: 'competence' as const, text: toldOf(record, method, competence), instrumentId: null }]
      : []),
    ...(custody ? [{ kind: 'custody' as const, text: toldOf(record, method, custody), instrumentId: null }] : []),
  ]
}
