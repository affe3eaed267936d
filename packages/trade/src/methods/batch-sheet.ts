import { decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'

/** Shares are in % of dry aggregate, moisture in % of dry aggregate, all as decimal strings. */
export type BatchSheetInput = {
  /** Dry aggregate of one batch, in g; the edition holds the usual size for each form of specimen. */
  readonly dryAggregate: string
  /** Moisture of the aggregate as it is weighed. */
  readonly moisture: string
  readonly filler: string
  /** Added water wanted, before the aggregate's own moisture is taken off. */
  readonly water: string
  readonly additive: string
  readonly emulsion: string
}

/** What to weigh of each component, in g at full precision. */
export type BatchSheet = {
  readonly aggregate: string
  readonly filler: string
  readonly water: string
  readonly additive: string
  readonly emulsion: string
}

/**
 * What to weigh for one batch on the basis of dry aggregate: the moist aggregate that holds the dry mass wanted, and the
 * added water less the water that comes with it.
 * @throws MethodInputError `not-positive` for an impossible size or share, `inconsistent` when the aggregate brings more
 * water than is wanted
 */
export function batchSheet(input: BatchSheetInput): BatchSheet {
  const dry = decimal(input.dryAggregate)
  if (dry.lte(0)) throw new MethodInputError('not-positive', 'The dry aggregate of a batch must be more than 0 g.')
  const shareOf = (key: 'filler' | 'water' | 'additive' | 'emulsion' | 'moisture') => {
    const share = decimal(input[key])
    if (share.lt(0)) throw new MethodInputError('not-positive', `The ${key} of a batch cannot be less than 0 %.`)
    return dry.times(share).div(100)
  }
  const moisture = shareOf('moisture')
  const water = shareOf('water').minus(moisture)
  if (water.lt(0))
    throw new MethodInputError(
      'inconsistent',
      `The aggregate brings ${plainDigits(moisture)} g of water, more than the batch should get: dry it first.`,
      { moisture: `${input.moisture} %`, water: `${input.water} %` },
    )
  return {
    aggregate: plainDigits(dry.plus(moisture)),
    filler: plainDigits(shareOf('filler')),
    water: plainDigits(water),
    additive: plainDigits(shareOf('additive')),
    emulsion: plainDigits(shareOf('emulsion')),
  }
}
