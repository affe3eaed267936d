import { decimal } from '../quantity/decimal.ts'
import { readTypedNumber } from '../quantity/typed-number.ts'

/** One sieve as typed: its opening in mm, and what passes it in % by mass. */
export type TypedSieve = { readonly size: string; readonly passing: string }
export type Sieve = {
  readonly size: { readonly typed: string; readonly value: string }
  readonly passing: { readonly typed: string; readonly value: string }
}
export type ReadGradation =
  | { readonly ok: true; readonly sieves: readonly Sieve[] }
  | { readonly ok: false; readonly row: number; readonly field: 'size' | 'passing'; readonly message: string }

/**
 * Reads a sieve table as it was found; nothing is computed from it. Sieves go from the widest down, and no more passes a
 * narrower one than a wider one (arithmetic).
 */
export function readGradation(rows: readonly TypedSieve[]): ReadGradation {
  const sieves: Sieve[] = []
  for (const [row, { size, passing }] of rows.entries()) {
    const label = `sieve ${row + 1}`
    const opening = readTypedNumber(size, { unit: 'mm', label: `The size of ${label}` })
    if (!opening.ok) return { ok: false, row, field: 'size', message: opening.message }
    const share = readTypedNumber(passing, { unit: '%', label: `What passes ${label}` })
    if (!share.ok) return { ok: false, row, field: 'passing', message: share.message }
    const sieve = { size: { typed: size, value: opening.value }, passing: { typed: passing, value: share.value } }
    const fault = faultOf(sieve, sieves.at(-1))
    if (fault) return { ok: false, row, ...fault }
    sieves.push(sieve)
  }
  return { ok: true, sieves }
}

function faultOf({ size, passing }: Sieve, wider: Sieve | undefined) {
  if (decimal(size.value).lte(0)) return ofSize('The opening of a sieve is more than 0 mm.')
  if (decimal(passing.value).gt(100))
    return ofPassing(`What passes lies between 0 and 100 %: ${passing.typed} is more.`)
  if (!wider) return undefined
  if (decimal(size.value).gte(wider.size.value))
    return ofSize(`Sieves go from the widest down: ${size.typed} mm is not less than ${wider.size.typed} mm.`)
  if (decimal(passing.value).gt(wider.passing.value))
    return ofPassing(
      `${passing.typed} % pass ${size.typed} mm, but only ${wider.passing.typed} % pass the wider ${wider.size.typed} mm: look at both again.`,
    )
  return undefined
}

const ofSize = (message: string) => ({ field: 'size', message }) as const
const ofPassing = (message: string) => ({ field: 'passing', message }) as const
