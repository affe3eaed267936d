import { decimal, Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { tUpperQuantile } from './distributions/student-t.ts'
import { requireProbability } from './special/arguments.ts'
import { doubleDigits, positiveOf, valueOf } from './values.ts'

/** One quantity that a result depends on. */
export type UncertaintyComponent = {
  readonly name: string
  /** How much the result changes with it: its partial derivative, in the unit of the result per its own. */
  readonly sensitivity: string
  readonly standardUncertainty: string
  /** Null when it is known without limit. */
  readonly degreesOfFreedom: string | null
}

export type Correlation = { readonly between: readonly [number, number]; readonly coefficient: string }

/** `factor` is agreed, like 2; `level` takes the factor from Student's t at the effective degrees of freedom. */
export type Coverage = { readonly factor: string } | { readonly level: number }

export type CombinedUncertainty = {
  /** Each component's part |c u| of the result, in the result's unit, and its share of the variance in per cent. */
  readonly contributions: readonly { readonly name: string; readonly amount: string; readonly percent: string }[]
  readonly combined: string
  /** Welch–Satterthwaite, not rounded; null when without limit, or when components go together and it does not hold. */
  readonly effectiveDegreesOfFreedom: string | null
  readonly coverageFactor: string
  readonly expanded: string
}

/**
 * Combined and expanded uncertainty (GUM, JCGM 100:2008, 5.1, 5.2 and G.4): u² = Σ(c u)² + 2 Σ c c u u r, effective degrees
 * of freedom u⁴ ÷ Σ((c u)⁴ ÷ ν), cut to a whole number for the t value (G.4.1), U = k u.
 * @throws MethodInputError `missing-reading` without components, `not-positive` for an uncertainty below 0, degrees of freedom
 *   or a factor of 0 or less, `inconsistent` for correlations that cannot be, or a level asked for where components go
 *   together and degrees of freedom are limited
 */
export function combineUncertainty(
  components: readonly UncertaintyComponent[],
  coverage: Coverage,
  correlations: readonly Correlation[] = [],
): CombinedUncertainty {
  if (components.length === 0)
    throw new MethodInputError('missing-reading', 'An uncertainty needs at least one component.')
  const parts = components.map(partOf)
  const cross = crossTerms(parts, correlations)
  const squares = parts.map((part) => part.pow(2))
  const variance = squares.reduce((sum, square) => sum.plus(square)).plus(cross)
  if (variance.lt(0)) throw new MethodInputError('inconsistent', 'These correlations cannot all be true at once.')
  const combined = variance.sqrt()
  const together = correlations.some(({ coefficient }) => !decimal(coefficient).isZero())
  const limited = components.some(({ degreesOfFreedom }, index) => degreesOfFreedom !== null && !parts[index]!.isZero())
  const effective = together ? null : effectiveDegrees(components, squares, variance)
  if (together && limited && 'level' in coverage)
    throw new MethodInputError(
      'inconsistent',
      'Effective degrees of freedom hold for independent components only: name a coverage factor, like 2.',
    )
  const factor = factorOf(coverage, effective)
  return {
    contributions: components.map(({ name }, index) => ({
      name,
      amount: plainDigits(parts[index]!.abs()),
      percent: plainDigits(variance.isZero() ? decimal(0) : squares[index]!.div(variance).times(100)),
    })),
    combined: plainDigits(combined),
    effectiveDegreesOfFreedom: effective === null ? null : plainDigits(effective),
    coverageFactor: factor,
    expanded: 'level' in coverage ? doubleDigits(combined.times(factor)) : plainDigits(combined.times(factor)),
  }
}

/**
 * Standard uncertainty of what is known by bounds (GUM 4.3; arcsine from memory, unverified): half width ÷ √3 rectangular,
 * ÷ √6 triangular, ÷ √2 arcsine; `resolution` is the whole step of a display, ÷ √12.
 * @throws MethodInputError `not-positive` for a width of 0 or less
 */
export function standardUncertaintyOf(
  shape: 'rectangular' | 'triangular' | 'arcsine' | 'resolution',
  width: string,
): string {
  const divisors = { rectangular: 3, triangular: 6, arcsine: 2, resolution: 12 }
  return plainDigits(positiveOf(width, 'The width').div(decimal(divisors[shape]).sqrt()))
}

function partOf({ name, sensitivity, standardUncertainty }: UncertaintyComponent): Decimal {
  const uncertainty = valueOf(standardUncertainty, `The standard uncertainty of ${name}`)
  if (uncertainty.lt(0))
    throw new MethodInputError('not-positive', `The standard uncertainty of ${name} must not be below 0.`)
  return valueOf(sensitivity, `The sensitivity of ${name}`).times(uncertainty)
}

function crossTerms(parts: readonly Decimal[], correlations: readonly Correlation[]): Decimal {
  const seen = new Set<string>()
  return correlations.reduce((sum, { between: [a, b], coefficient }) => {
    const r = valueOf(coefficient, 'A correlation')
    const pair = [a, b].sort((one, other) => one - other).join(' ')
    if (r.abs().gt(1) || a === b || parts[a] === undefined || parts[b] === undefined || seen.has(pair))
      throw new MethodInputError('inconsistent', 'A correlation stands once between two components, from −1 to 1.')
    seen.add(pair)
    return sum.plus(parts[a].times(parts[b]).times(r).times(2))
  }, decimal(0))
}

function effectiveDegrees(
  components: readonly UncertaintyComponent[],
  squares: readonly Decimal[],
  variance: Decimal,
): Decimal | null {
  const sum = components.reduce((total, { name, degreesOfFreedom }, index) => {
    if (degreesOfFreedom === null) return total
    return total.plus(squares[index]!.pow(2).div(positiveOf(degreesOfFreedom, `The degrees of freedom of ${name}`)))
  }, decimal(0))
  return sum.isZero() ? null : variance.pow(2).div(sum)
}

function factorOf(coverage: Coverage, effective: Decimal | null): string {
  if ('factor' in coverage) return plainDigits(positiveOf(coverage.factor, 'The coverage factor'))
  requireProbability(coverage.level, 'A level of confidence')
  // Below one degree of freedom there is no whole number to cut to: as it stands.
  const whole = effective === null ? Infinity : Decimal.max(effective.floor(), Decimal.min(effective, 1)).toNumber()
  return doubleDigits(tUpperQuantile((1 - coverage.level) / 2, whole))
}
