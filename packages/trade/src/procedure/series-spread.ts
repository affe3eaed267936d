import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { round } from '../quantity/rounding.ts'
import type { WeighedPair } from './declaration.ts'

export type FirstWeighing = { readonly id: string; readonly before: string }
/** A specimen lighter or heavier than its series, in words. */
export type ApartFromSeries = { readonly id: string; readonly text: string }

/** Fewer weighings have no middle worth speaking of; common practice, no source. */
const fewest = 5

/**
 * Specimens whose first weighing lies further from the median of the method's whole series than the share that the method
 * names: a template overfilled or struck too low. It is said, never acted on.
 */
export function apartFromSeries(pair: WeighedPair, weighings: readonly FirstWeighing[]): readonly ApartFromSeries[] {
  const { seriesSpread } = pair
  if (!seriesSpread || weighings.length < fewest) return []
  const middle = medianOf(weighings.map(({ before }) => decimal(before)))
  if (middle.isZero()) return []
  return weighings.flatMap(({ id, before }) => {
    const share = decimal(before).minus(middle).div(middle).times(100)
    if (share.abs().lte(seriesSpread.percent)) return []
    const way = share.gt(0) ? 'heavier' : 'lighter'
    const text = `${before} ${pair.unit} before, ${round(plainDigits(share.abs()), 1, 'half-even')} % ${way} than the middle of its series (${plainDigits(middle)} ${pair.unit}); usual is within ${seriesSpread.percent} %, ${seriesSpread.source}.`
    return [{ id, text }]
  })
}

function medianOf(values: readonly Decimal[]): Decimal {
  const sorted = [...values].sort((a, b) => a.cmp(b))
  const half = Math.floor(sorted.length / 2)
  const upper = sorted[half] as Decimal
  return sorted.length % 2 === 1 ? upper : upper.plus(sorted[half - 1] as Decimal).div(2)
}
