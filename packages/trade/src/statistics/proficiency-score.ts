import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { positiveOf, valueOf } from './values.ts'

export type Verdict = 'satisfactory' | 'questionable' | 'unsatisfactory'

export type Score = {
  readonly score: 'z' | 'z′' | 'ζ' | 'En'
  readonly value: string
  /** |z|, |z′|, |ζ|: up to 2 satisfactory, from 3 on unsatisfactory; |En| up to 1 satisfactory (ISO/IEC 17043). */
  readonly verdict: Verdict
}

/**
 * z = (x − assigned) ÷ σ of the round (ISO 13528; ISO/IEC 17043).
 * @throws MethodInputError `not-positive` for a σ of 0 or less, `inconsistent` for what is no number
 */
export function zScore(result: string, assigned: string, sigma: string): Score {
  return graded('z', deviation(result, assigned).div(positiveOf(sigma, 'The standard deviation of the round')))
}

/**
 * z′ = (x − assigned) ÷ √(σ² + u²), for when the assigned value is not known well: u above 0.3 σ (ISO 13528; from memory,
 * unverified).
 * @throws MethodInputError `not-positive` for a σ or uncertainty of 0 or less, `inconsistent` for what is no number
 */
export function zPrimeScore(result: string, assigned: string, sigma: string, assignedUncertainty: string): Score {
  const both = hypotenuse(
    positiveOf(sigma, 'The standard deviation of the round'),
    positiveOf(assignedUncertainty, 'The standard uncertainty of the assigned value'),
  )
  return graded('z′', deviation(result, assigned).div(both))
}

/** Whether z′ is to be used instead of z: u above 0.3 σ (ISO 13528; from memory, unverified). */
export function needsZPrime(sigma: string, assignedUncertainty: string): boolean {
  return positiveOf(assignedUncertainty, 'The standard uncertainty of the assigned value').gt(
    positiveOf(sigma, 'The standard deviation of the round').times('0.3'),
  )
}

/**
 * ζ = (x − assigned) ÷ √(u(x)² + u(assigned)²), both standard uncertainties (ISO 13528; from memory, unverified).
 * @throws MethodInputError `not-positive` for an uncertainty of 0 or less, `inconsistent` for what is no number
 */
export function zetaScore(result: string, assigned: string, uncertainty: string, assignedUncertainty: string): Score {
  return graded('ζ', overUncertainties(result, assigned, uncertainty, assignedUncertainty, 'standard'))
}

/**
 * En = (x − assigned) ÷ √(U(x)² + U(assigned)²), both expanded uncertainties (ISO/IEC 17043).
 * @throws MethodInputError `not-positive` for an uncertainty of 0 or less, `inconsistent` for what is no number
 */
export function enScore(result: string, assigned: string, uncertainty: string, assignedUncertainty: string): Score {
  const value = overUncertainties(result, assigned, uncertainty, assignedUncertainty, 'expanded')
  return { score: 'En', value: plainDigits(value), verdict: value.abs().lte(1) ? 'satisfactory' : 'unsatisfactory' }
}

/**
 * The rating that the AASHTO accreditation programme's proficiency samples give a z score: 5 to 0, with the sign of its side;
 * 2, 1 and 0 ask for a look into the cause.
 */
export function proficiencyRating(z: string): { readonly rating: number; readonly needsCause: boolean } {
  const value = valueOf(z, 'A z score')
  const bounds = ['1', '1.5', '2', '2.5', '3']
  const above = bounds.filter((bound) => value.abs().gt(bound)).length
  const size = bounds.length - above
  return { rating: size === 0 ? 0 : value.isNegative() ? -size : size, needsCause: size <= 2 }
}

function overUncertainties(result: string, assigned: string, own: string, theirs: string, kind: string): Decimal {
  return deviation(result, assigned).div(
    hypotenuse(
      positiveOf(own, `The ${kind} uncertainty of the result`),
      positiveOf(theirs, `The ${kind} uncertainty of the assigned value`),
    ),
  )
}

function deviation(result: string, assigned: string): Decimal {
  return valueOf(result, 'The result').minus(valueOf(assigned, 'The assigned value'))
}

function hypotenuse(a: Decimal, b: Decimal): Decimal {
  return a.pow(2).plus(b.pow(2)).sqrt()
}

function graded(score: 'z' | 'z′' | 'ζ', value: Decimal): Score {
  const size = value.abs()
  // Signals of ISO 13528 and ISO/IEC 17043, from memory, unverified.
  const verdict = size.lte(2) ? 'satisfactory' : size.lt(3) ? 'questionable' : 'unsatisfactory'
  return { score, value: plainDigits(decimal(value)), verdict }
}
