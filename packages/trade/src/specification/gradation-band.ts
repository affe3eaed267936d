import { decimal } from '../quantity/decimal.ts'
import { displayDigits, type DecimalSign } from '../quantity/display.ts'
import type { BandSieve, GradationBand } from './specification.ts'

/** One sieve of the band with what was found. */
export type CheckedSieve = BandSieve & {
  /** What passes, % by mass, as entered; null where this sieve was not used. */
  readonly passing: string | null
  readonly verdict: 'inside' | 'outside' | 'not tested'
}
export type GradationCheck = {
  readonly rows: readonly CheckedSieve[]
  /** `incomplete` while a sieve of the band was not used and none lies outside. */
  readonly verdict: 'inside' | 'outside' | 'incomplete'
  readonly sentence: string
}

/**
 * Holds a gradation against a band sieve by sieve: what passes each sieve is compared unrounded, as it was entered, and the
 * edges are inside. Sieves match by their opening in mm; nothing is read between sieves. Stockpile tolerances are not
 * judged here: they are held against the target gradation of an approved design.
 */
export function checkGradation(
  band: Pick<GradationBand, 'sieves'>,
  found: readonly { readonly size: string; readonly passing: string }[],
  sign?: DecimalSign,
): GradationCheck {
  const rows = band.sieves.map((sieve): CheckedSieve => {
    const passing = found.find(({ size }) => decimal(size).eq(sieve.size))?.passing ?? null
    if (passing === null) return { ...sieve, passing, verdict: 'not tested' }
    const isInside = decimal(passing).gte(sieve.from) && decimal(passing).lte(sieve.to)
    return { ...sieve, passing, verdict: isInside ? 'inside' : 'outside' }
  })
  return { rows, ...wholeOf(rows, sign) }
}

/** "90 to 100 %", or "100 %" where both edges are one. */
export function bandWords({ from, to }: Pick<BandSieve, 'from' | 'to'>, sign?: DecimalSign): string {
  const show = (digits: string) => displayDigits(digits, sign ? { sign } : {})
  return decimal(from).eq(to) ? `${show(from)} %` : `${show(from)} to ${show(to)} %`
}

function wholeOf(rows: readonly CheckedSieve[], sign?: DecimalSign): Pick<GradationCheck, 'verdict' | 'sentence'> {
  const show = (digits: string | null) => displayDigits(digits ?? '', sign ? { sign } : {})
  const outside = rows.filter(({ verdict }) => verdict === 'outside')
  const untested = rows.filter(({ verdict }) => verdict === 'not tested')
  const missing = untested.length > 0 ? ` Not tested: ${untested.map(({ label }) => label).join('; ')}.` : ''
  if (outside.length > 0) {
    const told = outside.map((row) => `${row.label} with ${show(row.passing)} % (${bandWords(row, sign)})`)
    return { verdict: 'outside', sentence: `The gradation lies outside the band at ${told.join('; ')}.${missing}` }
  }
  if (untested.length === rows.length)
    return { verdict: 'incomplete', sentence: 'No sieve of the band is among those that were entered.' }
  if (untested.length > 0)
    return { verdict: 'incomplete', sentence: `The gradation lies inside the band on the sieves entered.${missing}` }
  return { verdict: 'inside', sentence: 'The gradation lies inside the band on every sieve.' }
}
