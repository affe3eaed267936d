import { isUnit, units } from '@curebook/trade/quantity/unit-table'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'

/** A unit that numbers can be read in; undefined for words like "points", which are only shown beside. */
export function readableUnit(unit: string): string | undefined {
  return isUnit(unit) ? unit : undefined
}

/** A unit for a label, in words: "grams per square metre"; what is no unit of the trade stays as it is. */
export function unitInWords(unit: string): string {
  return isUnit(unit) ? units[unit].words : unit
}

/**
 * Digits with a point, in `unit`, of what a person typed (`7,5 g` → `7.5`). What is no number stays as typed, so that the
 * contract refuses it beside its field.
 */
export function typedDigits(text: FormDataEntryValue | null, unit: string, mayBeNegative = false): string {
  const typed = String(text ?? '').trim()
  const read = readTypedNumber(typed, { unit: readableUnit(unit), mayBeNegative })
  return read.ok ? read.value : typed
}
