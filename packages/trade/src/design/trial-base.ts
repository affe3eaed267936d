import { decimal, plainDigits } from '../quantity/decimal.ts'

/**
 * How much added water goes down for each per cent of emulsion more, % of dry aggregate: the emulsion brings water of its
 * own. Common practice, no source; a first guess that the engineer changes by content.
 */
export const waterForEmulsion = '0.5'

/** A first guess of the added water of a content from a cup at another one, never below zero; all in % of dry aggregate. */
export function suggestedWater(
  cup: { readonly emulsionPercent: string; readonly waterPercent: string },
  emulsionPercent: string,
  perPercent: string = waterForEmulsion,
): string {
  const less = decimal(emulsionPercent).minus(cup.emulsionPercent).times(perPercent)
  const water = decimal(cup.waterPercent).minus(less)
  return water.isNegative() ? '0' : plainDigits(water)
}
