import { decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

/** Denominators in use for a binder content; the names are units that never convert into each other. */
export const residualBases = ['% of dry aggregate', '% of dry aggregate and filler', '% of total dry mix'] as const
export type ResidualBasis = (typeof residualBases)[number]

/** Masses of one batch in g, planned or as weighed, in digits. */
export type ResidualBinderInput = {
  readonly dryAggregateG: string
  readonly fillerG: string
  readonly emulsionG: string
  /** Residue of the emulsion, % of the emulsion. */
  readonly residuePercent: string
  /** For the water of the batch: what was added, what the aggregate brought, and the additive as delivered. */
  readonly addedWaterG?: string
  readonly aggregateWaterG?: string
  readonly additiveG?: string
  /** Water in a diluted additive, % of the additive as delivered; the rest counts as dry mix. Default 100: all of it. */
  readonly additiveWaterPercent?: string
}

export type ResidualBinder = {
  readonly residualG: string
  /** Residual binder on each basis, in per cent at full precision. */
  readonly percent: Readonly<Record<ResidualBasis, string>>
  /** Three different waters that must not be mixed up, in g. */
  readonly water: {
    readonly added: string
    /** Added, and brought by aggregate and additive: what acts before the emulsion goes in. */
    readonly beforeEmulsion: string
    /** All of it, the emulsion's own included. */
    readonly total: string
  }
}

/**
 * Residual binder of one batch on each basis: emulsion × residue over dry aggregate, over dry aggregate and filler, and
 * over the total dry mix (both of these with the residual binder, and what of an additive is not water).
 * @throws MethodInputError `not-positive` for a mass that cannot be, `inconsistent` for a residue outside 0 to 100 %
 */
export function residualBinder(input: ResidualBinderInput): ResidualBinder {
  const aggregate = massOf(input.dryAggregateG, 'The dry aggregate')
  if (aggregate.isZero()) throw new MethodInputError('not-positive', 'The dry aggregate must be more than 0 g.')
  const filler = massOf(input.fillerG, 'The mineral filler')
  const emulsion = massOf(input.emulsionG, 'The emulsion')
  const added = massOf(input.addedWaterG ?? '0', 'The added water')
  const ofAggregate = massOf(input.aggregateWaterG ?? '0', 'The water of the aggregate')
  const additive = massOf(input.additiveG ?? '0', 'The additive')
  const additiveWater = additive
    .times(percentOf(input.additiveWaterPercent ?? '100', 'The water of an additive'))
    .div(100)
  const residual = emulsion.times(percentOf(input.residuePercent, 'The residue of an emulsion')).div(100)
  const solid = aggregate.plus(filler)
  const over = (mass: typeof solid) => plainDigits(residual.times(100).div(mass))
  const beforeEmulsion = added.plus(ofAggregate).plus(additiveWater)
  return {
    residualG: plainDigits(residual),
    percent: {
      '% of dry aggregate': over(aggregate),
      '% of dry aggregate and filler': over(solid),
      '% of total dry mix': over(solid.plus(residual).plus(additive).minus(additiveWater)),
    },
    water: {
      added: plainDigits(added),
      beforeEmulsion: plainDigits(beforeEmulsion),
      total: plainDigits(beforeEmulsion.plus(emulsion).minus(residual)),
    },
  }
}

/**
 * The residual binder of an emulsion content, both in % of dry aggregate.
 * @throws MethodInputError `inconsistent` for a residue outside 0 to 100 %
 */
export function residualOfEmulsion(emulsionPercent: string, residuePercent: string): string {
  return plainDigits(decimal(emulsionPercent).times(percentOf(residuePercent, 'The residue of an emulsion')).div(100))
}

/**
 * The emulsion content that gives a residual binder, both in % of dry aggregate.
 * @throws MethodInputError `inconsistent` for a residue outside 0 to 100 %, 0 itself included
 */
export function emulsionOfResidual(residualPercent: string, residuePercent: string): string {
  const residue = percentOf(residuePercent, 'The residue of an emulsion')
  if (residue.isZero()) throw new MethodInputError('inconsistent', 'An emulsion without residue gives no binder.')
  return plainDigits(decimal(residualPercent).times(100).div(residue))
}

function massOf(digits: string, name: string) {
  const mass = decimal(digits)
  if (mass.lt(0))
    throw new MethodInputError('not-positive', `${name} cannot weigh less than 0 g.`, { mass: `${digits} g` })
  return mass
}

function percentOf(digits: string, name: string) {
  const percent = decimal(digits)
  if (percent.lt(0) || percent.gt(100))
    throw new MethodInputError('inconsistent', `${name} lies between 0 and 100 %.`, { share: `${digits} %` })
  return percent
}
