import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import type { ResidualBasis } from './residual-binder.ts'

/**
 * A binder content on another basis, in per cent at full precision. The total dry mix is dry aggregate, filler and binder;
 * a set-control additive is left out. Arithmetic of shares.
 * @param fillerPercent mineral filler in % of dry aggregate; 0 where none is in the mix
 * @throws MethodInputError `inconsistent` for a content that no mix can have, `not-positive` for less filler than none
 */
export function binderOnBasis(value: string, from: ResidualBasis, to: ResidualBasis, fillerPercent: string): string {
  const filler = decimal(fillerPercent)
  if (filler.lt(0))
    throw new MethodInputError('not-positive', 'The mineral filler cannot be less than 0 % of dry aggregate.', {
      filler: `${fillerPercent} %`,
    })
  const given = decimal(value)
  if (given.lt(0) || (from === '% of total dry mix' && given.gte(100)))
    throw new MethodInputError('inconsistent', 'A binder content lies between 0 and 100 % of the total dry mix.', {
      binder: `${value} ${from}`,
    })
  if (from === to) return plainDigits(given)
  const solid = filler.plus(100)
  return plainDigits(fromAggregate(toAggregate(given, from, solid), to, solid))
}

/**
 * Moisture of a sample in % of its dry mass, from % of its wet mass. Arithmetic: w ÷ (100 − w) × 100.
 * @throws MethodInputError `inconsistent` outside 0 to below 100 % of wet mass
 */
export function moistureOfDryMass(ofWetMass: string): string {
  const wet = decimal(ofWetMass)
  if (wet.lt(0) || wet.gte(100))
    throw new MethodInputError('inconsistent', 'Moisture lies between 0 and 100 % of the wet mass.', {
      moisture: `${ofWetMass} % of wet mass`,
    })
  return plainDigits(wet.times(100).div(decimal(100).minus(wet)))
}

/**
 * Moisture of a sample in % of its wet mass, from % of its dry mass. Arithmetic: w ÷ (100 + w) × 100.
 * @throws MethodInputError `inconsistent` for less than 0 %
 */
export function moistureOfWetMass(ofDryMass: string): string {
  const dry = decimal(ofDryMass)
  if (dry.lt(0))
    throw new MethodInputError('inconsistent', 'Moisture cannot be less than 0 % of the dry mass.', {
      moisture: `${ofDryMass} % of dry mass`,
    })
  return plainDigits(dry.times(100).div(dry.plus(100)))
}

/** @param solid dry aggregate and filler for 100 of dry aggregate */
function toAggregate(value: Decimal, from: ResidualBasis, solid: Decimal): Decimal {
  if (from === '% of dry aggregate') return value
  if (from === '% of dry aggregate and filler') return value.times(solid).div(100)
  return value.times(solid).div(decimal(100).minus(value))
}

function fromAggregate(binder: Decimal, to: ResidualBasis, solid: Decimal): Decimal {
  if (to === '% of dry aggregate') return binder
  if (to === '% of dry aggregate and filler') return binder.times(100).div(solid)
  return binder.times(100).div(solid.plus(binder))
}
