import type { CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { EditionParameter, EvaluationSetup, ObservedReading } from '../procedure/declaration.ts'
import { parameterOf } from '../procedure/evaluation.ts'
import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { round } from '../quantity/rounding.ts'
import type { Unit } from '../quantity/unit-table.ts'

/** Symbol and name of an input line, its unit, and how the value came about: "as weighed". */
export type TakenText = {
  readonly symbol: string
  readonly name: string
  readonly unit: Unit
  readonly source: string
}

/** Writes a reading into a working with its digits as they are. */
export function takeReading(work: CalculationBuilder, text: TakenText, reading: ObservedReading): Decimal {
  return work.input(text, reading.value, { kind: 'reading', id: reading.id, key: reading.key })
}

/**
 * The same for what must be more than nothing: a mass, a width.
 * @throws MethodInputError `not-positive`
 */
export function takePositive(work: CalculationBuilder, text: TakenText, reading: ObservedReading): Decimal {
  if (decimal(reading.value).gt(0)) return takeReading(work, text, reading)
  throw new MethodInputError('not-positive', `${text.name} must be more than 0 ${text.unit}: read it again.`, {
    [text.symbol]: `${reading.value} ${text.unit}`,
  })
}

/**
 * The same for a share of a surface, in per cent.
 * @throws MethodInputError `inconsistent` outside 0 to 100 %
 */
export function takeShare(work: CalculationBuilder, text: TakenText, reading: ObservedReading): Decimal {
  const value = decimal(reading.value)
  if (value.gte(0) && value.lte(100)) return takeReading(work, text, reading)
  throw new MethodInputError('inconsistent', `${text.name} lies between 0 and 100 %: look again.`, {
    [text.symbol]: `${reading.value} %`,
  })
}

/**
 * Writes a parameter of the pinned edition into a working.
 * @throws MethodInputError `missing-setup` when the edition holds none of that key
 */
export function takeParameter(work: CalculationBuilder, symbol: string, setup: EvaluationSetup, key: string): Decimal {
  const { value, unit, label, source } = parameterOf(setup, key)
  return work.input({ symbol, name: label, unit, source }, value, { kind: 'parameter', key })
}

/** The reading of a slot that may be left out; undefined where it was not taken. */
export function optionalReading(
  readings: readonly ObservedReading[],
  step: string,
  key: string,
  repeat = 1,
): ObservedReading | undefined {
  return readings.find((one) => one.step === step && one.key === key && one.repeat === repeat)
}

/** What is usual by the edition; an end that is absent is open. */
export type Usual = { readonly least?: EditionParameter; readonly most?: EditionParameter }

/** A sentence where a value lies outside what is usual, with the end that it passes and its source; none inside. */
export function outsideUsual(what: string, value: Decimal, unit: string, { least, most }: Usual): readonly string[] {
  const say = (digits: string) => (unit === '' ? digits : `${digits} ${unit}`)
  const shown = say(round(plainDigits(value), 2, 'half-even'))
  if (least && value.lt(least.value))
    return [`${what} of ${shown} is less than the usual ${say(least.value)} (${least.source}); used all the same.`]
  if (most && value.gt(most.value))
    return [`${what} of ${shown} is more than the usual ${say(most.value)} (${most.source}); used all the same.`]
  return []
}
