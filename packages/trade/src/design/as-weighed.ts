import { decimal, plainDigits } from '../quantity/decimal.ts'
import { round } from '../quantity/rounding.ts'

/** How far a content as weighed may lie from its target, in per cent of the target, before it is spoken of. */
export const usualPouring = { percent: '1', source: 'common practice, no source' } as const

/**
 * What is said of a mix whose emulsion content as weighed lies further from its target than usual; null where it does not.
 * The content as weighed stands: it is where the result is drawn. Both contents in % of dry aggregate.
 */
export function apartFromTarget(target: string, asWeighed: string): string | null {
  const apart = decimal(asWeighed).minus(target)
  if (apart.abs().times(100).lte(decimal(target).times(usualPouring.percent))) return null
  const way = apart.gt(0) ? 'over' : 'under'
  return `${way} the ${plainDigits(decimal(target))} % of emulsion aimed at: ${round(asWeighed, 2, 'half-even')} % as weighed, and used as weighed; usual is within ${usualPouring.percent} % of the target, ${usualPouring.source}`
}
