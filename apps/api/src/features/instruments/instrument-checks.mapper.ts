import type { InstrumentCheck } from '@curebook/contract/instrument-checks'
import { type ChartedCheck, chartDigits } from './check-charts.ts'
import { personName } from '#platform/row-values'
import type { CheckRow } from './instrument-checks.repository.ts'

/** What is charted of a check that stands: what was read, in the unit of its bounds. */
export function toChartedCheck(row: CheckRow): ChartedCheck[] {
  const value = row.readings[0]?.value
  const { nominal } = row
  if (!value || !nominal || row.supersededBy !== null) return []
  return toCheck(row).map(({ id, kind, checkedAt, bounds: { unit } }) => ({
    ...{ id, kind, checkedAt, unit },
    value: chartDigits(value),
    nominal: chartDigits(nominal),
  }))
}

/** A check with what was read; a row without reading or bounds says nothing and is left out. */
export function toCheck(row: CheckRow): InstrumentCheck[] {
  const [reading] = row.readings
  const { nominalText, toleranceText, unit, source } = row
  if (!reading || nominalText === null || toleranceText === null || unit === null || source === null) return []
  return [
    {
      id: row.id,
      kind: row.kind as InstrumentCheck['kind'],
      typed: reading.typed,
      bounds: { nominal: nominalText, tolerance: toleranceText, unit, source },
      passed: row.passed,
      reference: row.reference,
      note: reading.note,
      by: personName(row.by),
      checkedAt: new Date(reading.eventAt.getTime() + Number(reading.offsetMs ?? 0)).toISOString(),
      supersedes: row.supersedesId && row.reason ? { id: row.supersedesId, reason: row.reason } : null,
      superseded: row.supersededBy !== null,
    },
  ]
}
