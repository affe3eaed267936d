import { dayOfInstant, findManagers } from '#features/people/authorised.service'
import type { RowsSql } from '#platform/sql-rows'
import { calibrationFault } from './calibration-fault.ts'
import { findCalibrationsOf } from './holds.repository.ts'
import type { InstrumentAtHand } from './readings.repository.ts'

type Named = Pick<InstrumentAtHand, 'id' | 'code' | 'state'>

/** Why a reading with this instrument at an instant does not count by itself; null when it does. */
export async function instrumentFault(sql: RowsSql, instrument: Named, at: Date): Promise<string | null> {
  return (await faultsOfUses(sql, [{ ...instrument, at }]))[0]!
}

/** The same of each use, in their order, with one look for all of them. */
export async function faultsOfUses(
  sql: RowsSql,
  uses: readonly (Named & { readonly at: Date })[],
): Promise<(string | null)[]> {
  if (uses.length === 0) return []
  const ids = [...new Set(uses.map(({ id }) => id))]
  const [spans, days] = await Promise.all([
    findCalibrationsOf(sql, ids),
    Promise.all(uses.map(({ at }) => dayOfInstant(sql, at))),
  ])
  return uses.map(({ id, code, state }, index) =>
    calibrationFault(
      code,
      state,
      spans.filter(({ instrumentId }) => instrumentId === id),
      days[index]!,
    ),
  )
}

/** Of each instrument, why a reading with it now would wait, and who can put it right; the faultless are not in the answer. */
export async function faultsToday(
  sql: RowsSql,
  instruments: readonly { readonly id: string; readonly code: string }[],
): Promise<ReadonlyMap<string, string>> {
  const uses = instruments.map(({ id, code }) => ({ id, code, state: 'in-service', at: sql.at }))
  const found = await faultsOfUses(sql, uses)
  const faults = uses.flatMap(({ id }, index) => {
    const fault = found[index]!
    return fault === null ? [] : [[id, fault] as const]
  })
  if (faults.length === 0) return new Map()
  const managers = await findManagers(sql)
  return new Map(
    faults.map(([id, fault]) => [id, `${fault} A manager can record its calibration: ${managers.join(', ')}.`]),
  )
}
