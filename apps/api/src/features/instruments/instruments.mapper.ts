import type { Calibration, Instrument, InstrumentFactor } from '@curebook/contract/instruments'
import type { FactorUnit } from '@curebook/trade/methods/machine-factor'
import type { EditionParameters } from '@curebook/trade/procedure/declaration'
import { dayOf, digitsOf, personName } from '#platform/row-values'
import { factorWarnings } from './factor-warnings.ts'
import { instrumentState } from './instrument-state.ts'
import type { FactorRow, InstrumentRow } from './instruments.repository.ts'

/** What factors are checked against: the editions in force, by the factor's key. */
export type FactorTables = Readonly<Record<'area' | 'frame', EditionParameters>>

export function toInstrument(row: InstrumentRow, tables: FactorTables, today: string): Instrument {
  const calibrations = row.calibrations.map(({ id, doneOn, validUntil, certificate, passed }): Calibration => ({
    id,
    doneOn: dayOf(doneOn),
    validUntil: dayOf(validUntil),
    certificate,
    passed,
  }))
  return {
    id: row.id,
    code: row.code,
    kind: row.kind as Instrument['kind'],
    name: row.name,
    serial: row.serial,
    place: row.placeText,
    capacity: row.range && digitsOf(row.range),
    capacityUnit: row.unit,
    resolution: row.resolution && digitsOf(row.resolution),
    state: instrumentState(row.state, calibrations, today),
    version: row.version,
    factors: row.instrumentFactors.map((factor) => toFactor(factor, tables, besides(factor, row.instrumentFactors))),
    calibrations: calibrations.toReversed(),
  }
}

/** The machine's standing factor in another unit, which should be of the same class. */
function besides(factor: FactorRow, all: readonly FactorRow[]) {
  const other = all.find(({ key, unit, supersededBy }) => key === factor.key && unit !== factor.unit && !supersededBy)
  return other && factor.supersededBy === null
    ? { value: digitsOf(other.value), unit: other.unit as FactorUnit }
    : undefined
}

function toFactor(row: FactorRow, tables: FactorTables, other: ReturnType<typeof besides>): InstrumentFactor {
  const key = row.key as 'area' | 'frame'
  const factor = {
    key,
    value: digitsOf(row.value),
    unit: row.unit as FactorUnit,
    measuredAreaCm2: row.measuredArea && digitsOf(row.measuredArea),
  }
  return {
    ...factor,
    id: row.id,
    typed: row.valueText,
    edition: row.edition,
    effectiveFrom: dayOf(row.effectiveFrom),
    current: row.supersededBy === null,
    warnings: factorWarnings(factor, tables[key], other),
    by: personName(row.by),
    at: row.at.toISOString(),
    reason: row.reason,
  }
}
