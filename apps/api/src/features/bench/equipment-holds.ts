import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { readingsRestingOn } from '@curebook/trade/procedure/resting'
import type { LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { findUsesOf, stepInstruments } from './equipment-use.repository.ts'
import { toldOf } from './hold-words.ts'
import { findHolding, type HoldCause, insertHolds, openFor } from './holds.repository.ts'
import { faultsOfUses, instrumentFault } from './instrument-faults.ts'
import type { InstrumentAtHand } from './readings.repository.ts'
import type { TestRecord } from './test-record.ts'

type Resting = { readonly record: TestRecord; readonly method: MethodDeclaration; readonly stepKey: string }

/** Of the ovens, baths and machines in which or on which the steps were done that a reading rests on. */
export async function equipmentCauses(sql: RowsSql, { record, method, stepKey }: Resting): Promise<HoldCause[]> {
  const uses = (await findUsesOf(sql, record.id)).filter(({ step }) =>
    readingsRestingOn(method, step).some((resting) => resting.step === stepKey),
  )
  const faults = await faultsOfUses(sql, uses)
  const causes = new Map<string, HoldCause>()
  for (const [index, { step, ...instrument }] of uses.entries()) {
    const fault = faults[index]
    if (fault && !causes.has(instrument.id))
      causes.set(instrument.id, equipmentCause(record, method, step, instrument, fault))
  }
  return [...causes.values()]
}

function equipmentCause(
  record: TestRecord,
  method: MethodDeclaration,
  step: string,
  instrument: Pick<InstrumentAtHand, 'id'>,
  fault: string,
): HoldCause {
  const title = method.steps.find(({ key }) => key === step)?.title ?? step
  return {
    kind: 'calibration',
    text: toldOf(record, method, `“${title}”: ${fault}`),
    instrumentId: instrument.id,
  }
}

/**
 * What was read before it was told what the step was done with waits from then on, as if it had been told first.
 * @returns rows for the ledger entry of the act
 */
export async function holdReadAlready(
  sql: RowsSql,
  {
    record,
    method,
    stepKey,
    instrument,
    at,
  }: {
    record: TestRecord
    method: MethodDeclaration
    stepKey: string
    instrument: Pick<InstrumentAtHand, 'id' | 'code' | 'state' | 'kind'>
    at: Date
  },
): Promise<LedgerRow[]> {
  if (!stepInstruments.includes(instrument.kind)) return []
  const resting = readingsRestingOn(method, stepKey)
  const slots = record.slots.filter((slot) => resting.some(({ step, key }) => slot.step === step && slot.key === key))
  const fault = slots.length === 0 ? null : await instrumentFault(sql, instrument, at)
  if (fault === null) return []
  const cause = equipmentCause(record, method, stepKey, instrument, fault)
  const rows: LedgerRow[] = []
  for (const { readingId } of slots) {
    const opened = await openFor(sql, record, readingId, cause)
    const held = await findHolding(sql, readingId)
    rows.push(...opened.rows, ...(held.includes(opened.id) ? [] : await insertHolds(sql, readingId, [opened.id])))
  }
  return rows
}
