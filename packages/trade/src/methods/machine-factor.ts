import type { EditionParameters } from '../procedure/declaration.ts'
import { parameterOf } from '../procedure/evaluation.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { convert } from '../quantity/units.ts'
import type { Unit } from '../quantity/unit-table.ts'

/** Units in which a machine's factor is published: mass per area for each gram of difference. */
export type FactorUnit = 'g/m²' | 'g/ft²'

export type FactorCheck = {
  /** The factor that it is compared with, at full precision. */
  readonly expected: string
  /** (factor − expected) ÷ expected, in %. */
  readonly differencePercent: string
  /** It differs by more than the tolerance: ask, never refuse. */
  readonly warns: boolean
}

const areaUnit: Readonly<Record<FactorUnit, Unit>> = { 'g/m²': 'm²', 'g/ft²': 'ft²' }

/**
 * Compares a machine's factor with 1 ÷ its own measured area. The factor is never replaced.
 * @param tolerancePercent of the edition, `factor-difference`; 2 % is common practice
 * @throws MethodInputError `not-positive` for an area or factor that is not more than zero
 */
export function checkFactor(
  factor: string,
  unit: FactorUnit,
  measuredAreaCm2: string,
  tolerancePercent = '2',
): FactorCheck {
  return compare(factor, factorOfArea(measuredAreaCm2, unit), tolerancePercent)
}

/**
 * The factor that an area implies: 1 ÷ area, at full precision. For an abraded area or the opening of a sand frame.
 * @throws MethodInputError `not-positive`
 */
export function factorOfArea(areaCm2: string, unit: FactorUnit): string {
  const area = convert(positive(areaCm2, 'measured area', 'cm²'), 'cm²', areaUnit[unit])
  return plainDigits(decimal(1).div(area))
}

/** The opening of a sand frame in cm², from its two sides in mm. @throws MethodInputError `not-positive` */
export function openingArea(widthMm: string, lengthMm: string): string {
  const width = positive(widthMm, 'width of the opening', 'mm')
  const length = positive(lengthMm, 'length of the opening', 'mm')
  return plainDigits(convert(width.times(length), 'mm²', 'cm²'))
}

export type AreaFactorClass = {
  readonly key: string
  readonly name: string
  readonly runSecondsParameter: string
  readonly factorParameters: Readonly<Record<FactorUnit, string>>
}

/**
 * The class of the edition's table whose factor is nearest to a machine's, and how far it is off.
 * @throws MethodInputError `missing-setup` when the edition lacks a class, `not-positive` for a factor not more than zero
 */
export function nearestClass(
  factor: string,
  unit: FactorUnit,
  classes: readonly AreaFactorClass[],
  parameters: EditionParameters,
): (FactorCheck & { readonly class: AreaFactorClass }) | null {
  const tolerance = parameterOf({ parameters }, 'factor-difference').value
  const checks = classes.map((item) => ({
    class: item,
    ...compare(factor, parameterOf({ parameters }, item.factorParameters[unit]).value, tolerance),
  }))
  const size = (check: FactorCheck) => decimal(check.differencePercent).abs()
  return checks.reduce<(typeof checks)[number] | null>(
    (nearest, check) => (nearest === null || size(check).lt(size(nearest)) ? check : nearest),
    null,
  )
}

function compare(factor: string, expected: string, tolerancePercent: string): FactorCheck {
  const difference = positive(factor, 'factor', 'per g').minus(expected).div(expected).times(100)
  return {
    expected,
    differencePercent: plainDigits(difference),
    warns: difference.abs().gt(tolerancePercent),
  }
}

function positive(digits: string, words: string, unit: string) {
  const value = decimal(digits)
  if (value.lte(0)) throw new MethodInputError('not-positive', `The ${words} must be more than 0 ${unit}.`)
  return value
}
