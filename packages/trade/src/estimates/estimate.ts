import type { CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { Calculation } from '../procedure/calculation.ts'
import type { Certainty } from '../procedure/declaration.ts'
import { decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

/** One sieve in digits: its opening in mm and what passes it in % by mass. */
export type PassingSieve = { readonly size: string; readonly passing: string }

/** A value that was entered, in digits, with where it comes from in words. */
export type GivenValue = { readonly value: string; readonly source: string; readonly id?: string }

/** What an estimate starts from. Nothing here is measured on a mix, and nothing of it becomes a result. */
export type EstimateInput = {
  /** The gradation, the widest sieve first. */
  readonly sieves: readonly PassingSieve[]
  readonly gradation: { readonly source: string; readonly id?: string }
  /** Apparent specific gravity of the aggregate. */
  readonly apparentGravity?: GivenValue
  /** Kerosene retained in the centrifuge kerosene equivalent, % of dry aggregate. */
  readonly absorption?: GivenValue
  /** Specific gravity of the residual binder. */
  readonly binderGravity?: GivenValue
  /** Thickness of the film of binder, µm. */
  readonly filmMicrons?: GivenValue
  /** Cement or lime that is added and not in the gradation, % of dry aggregate. */
  readonly extraFiller?: GivenValue
  /** Residue of the emulsion, % of the emulsion. */
  readonly residue?: GivenValue
}

/** A content found by calculation alone, with its working; % of dry aggregate. */
export type EstimatedContent = {
  readonly key: 'residual-binder' | 'emulsion'
  readonly label: string
  readonly value: string
  readonly unit: '% of dry aggregate'
  readonly displayDecimals: number
  readonly calculation: Calculation
}

/** What an estimate is, whether or not it can be computed. */
export type EstimateText = {
  readonly key: string
  readonly name: string
  readonly source: string
  /** That of its weakest part. */
  readonly certainty: Certainty
}

/** An estimate of what to begin a series with: no method, no result, and no limit is held against it. */
export type Estimate = EstimateText & {
  readonly contents: readonly EstimatedContent[]
  /** What its source, or whoever read it, says against it, a sentence each. */
  readonly remarks: readonly string[]
}

export const onDryAggregate = '% of dry aggregate'

/** The content that a working ends in. */
export function contentOf(key: EstimatedContent['key'], calculation: Calculation): EstimatedContent {
  const label = key === 'emulsion' ? 'Emulsion' : 'Residual binder'
  const value = calculation.lines.at(-1)!.value
  return { key, label, value, unit: onDryAggregate, displayDecimals: 2, calculation }
}

/** Writes what passes each of the sieves named, symbols `p1` …, in their order. */
export function takePassing(work: CalculationBuilder, input: EstimateInput, sizes: readonly string[]) {
  const passing = passingOf(input.sieves, sizes)
  const { source, id } = input.gradation
  for (const [index, size] of sizes.entries())
    work.input(
      { symbol: `p${index + 1}`, name: `Passing ${size} mm`, unit: '%', source },
      passing[index]!,
      id === undefined ? { kind: 'constant' } : { kind: 'result', id },
    )
}

/**
 * What passes each of the sieves: as found, or as arithmetic gives it (100 where a narrower sieve passes all, 0 where a
 * wider one passes nothing). Nothing is read between two sieves.
 * @throws MethodInputError `missing-setup` naming every sieve that is not there
 */
export function passingOf(sieves: readonly PassingSieve[], sizes: readonly string[]): readonly string[] {
  const found = sizes.map((size) => {
    const exact = sieves.find((sieve) => decimal(sieve.size).eq(size))
    if (exact) return exact.passing
    if (sieves.some((sieve) => decimal(sieve.size).lt(size) && decimal(sieve.passing).eq(100))) return '100'
    if (sieves.some((sieve) => decimal(sieve.size).gt(size) && decimal(sieve.passing).isZero())) return '0'
    return null
  })
  if (sieves.length === 0)
    throw new MethodInputError('missing-setup', 'The gradation stands in a file alone: type its sieves to count them.')
  const missing = sizes.filter((_, index) => found[index] === null)
  if (missing.length > 0)
    throw new MethodInputError(
      'missing-setup',
      `The gradation has no sieve of ${missing.join(', ')} mm: the method counts what passes just these, and nothing is read between two sieves.`,
    )
  return found as readonly string[]
}

/** Writes an entered value. @throws MethodInputError `missing-setup` where it was not given, `not-positive` below its least */
export function takeGiven(
  work: CalculationBuilder,
  text: { readonly symbol: string; readonly name: string; readonly unit: string },
  given: GivenValue | undefined,
  least: 'above-zero' | 'zero' = 'above-zero',
) {
  if (!given) throw new MethodInputError('missing-setup', `${text.name} is not given yet: enter it.`)
  const value = decimal(given.value)
  if (value.lt(0) || (least === 'above-zero' && value.isZero()))
    throw new MethodInputError(
      'not-positive',
      `${text.name} must be ${least === 'zero' ? 'at least' : 'more than'} 0${text.unit === '1' ? '' : ` ${text.unit}`}.`,
      { [text.symbol]: given.value },
    )
  work.input(
    { ...text, source: given.source },
    given.value,
    given.id === undefined ? { kind: 'constant' } : { kind: 'result', id: given.id },
  )
}

/** Writes the residue. @throws MethodInputError `inconsistent` above 100 % */
export function takeResidue(work: CalculationBuilder, residue: GivenValue) {
  takeGiven(work, { symbol: 'r', name: 'The residue of the emulsion', unit: '%' }, residue)
  if (decimal(residue.value).gt(100))
    throw new MethodInputError('inconsistent', 'The residue of an emulsion lies between 0 and 100 %.', {
      residue: `${residue.value} %`,
    })
}
