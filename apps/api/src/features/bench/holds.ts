import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { custodyFaultIn } from '#features/custody/custody-fault.service'
import { dayOfInstant, notAuthorisedIn } from '#features/people/authorised.service'
import type { LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { calibrationFault } from './calibration-fault.ts'
import { findCalibrationsOf, findHolding, type HoldCause, insertHolds, openFor } from './holds.repository.ts'
import type { InstrumentAtHand } from './readings.repository.ts'
import type { TestRecord } from './test-record.ts'

type Judged = {
  readonly record: TestRecord
  readonly method: MethodDeclaration
  readonly readingId: string
  readonly instrument: InstrumentAtHand | null
  /** When the instrument showed it: a slip put right does not move this. */
  readonly actedAt: Date
  /** When the person who posts it says that they acted. */
  readonly toldAt: Date
  /** The reading whose slip is put right: what it waits for, its correction waits for too. */
  readonly slipOf: string | null
}

/**
 * A reading is never refused for an expired calibration, a missing authorisation or an item out of custody: it is kept, and
 * does not count until somebody who may releases it. One deviation a test and cause.
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
  const name = `${record.label} (${record.code}), ${method.name}`
  const [calibration, competence, custody] = [
    instrument && (await instrumentFault(sql, instrument, actedAt)),
    await notAuthorisedIn(sql, {
      membershipId: sql.actor.membershipId,
      name: sql.actor.name,
      activity: `method:${method.key}`,
      label: method.name,
      day: await dayOfInstant(sql, toldAt),
    }),
    await custodyFaultIn(sql, { itemId: record.itemId, methodKey: record.methodKey, at: actedAt }),
  ]
  return [
    ...(calibration
      ? [{ kind: 'calibration' as const, text: told(name, calibration), instrumentId: instrument!.id }]
      : []),
    ...(competence ? [{ kind: 'competence' as const, text: told(name, competence), instrumentId: null }] : []),
    ...(custody ? [{ kind: 'custody' as const, text: told(name, custody), instrumentId: null }] : []),
  ]
}

/** Why a reading with this instrument at an instant does not count by itself; null when it does. */
export async function instrumentFault(
  sql: RowsSql,
  { id, code, state }: Pick<InstrumentAtHand, 'id' | 'code' | 'state'>,
  at: Date,
): Promise<string | null> {
  return calibrationFault(code, state, await findCalibrationsOf(sql, [id]), await dayOfInstant(sql, at))
}

/** Of each instrument, why a reading with it now would wait; the faultless are not in the answer. */
export async function faultsToday(
  sql: RowsSql,
  instruments: readonly { readonly id: string; readonly code: string }[],
): Promise<ReadonlyMap<string, string>> {
  const today = await dayOfInstant(sql, sql.at)
  const spans = await findCalibrationsOf(
    sql,
    instruments.map(({ id }) => id),
  )
  return new Map(
    instruments.flatMap(({ id, code }) => {
      const fault = calibrationFault(
        code,
        'in-service',
        spans.filter(({ instrumentId }) => instrumentId === id),
        today,
      )
      return fault === null ? [] : [[id, fault] as const]
    }),
  )
}

function told(name: string, fault: string): string {
  return `${name}: ${fault} What was read is kept and does not count until released.`
}
