import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'

/** Everything in digits; all shares in % of dry aggregate. */
export type BatchSheetInput = {
  /** Dry aggregate of one batch in g: a parameter of the edition, by form of specimen. */
  readonly dryAggregateG: string
  /** Water in the aggregate as it is weighed, % of dry aggregate. */
  readonly moisturePercent: string
  readonly emulsionPercent: string
  readonly fillerPercent: string
  /** Added water wanted in all, before what aggregate and additive bring is taken off. */
  readonly waterPercent: string
  /** Additive as delivered. */
  readonly additivePercent: string
  /** Water in a diluted additive, % of the additive as delivered; it counts as added water. Default 0. */
  readonly additiveWaterPercent?: string
  /** Part of the aggregate that is used, in words: "passing 4.75 mm". */
  readonly fractionUsed?: string
  /** How much of the whole aggregate is taken off to get that fraction, % of the whole. Default 0. */
  readonly scalpedPercent?: string
}

export type BatchComponent = 'aggregate' | 'filler' | 'water' | 'additive' | 'emulsion'

export type BatchSheet = {
  /** What to weigh, in g at full precision; aggregate as it is (moist), water without what others bring. */
  readonly rows: readonly { readonly component: BatchComponent; readonly targetG: string }[]
  readonly dryAggregateG: string
  readonly aggregateWaterG: string
  readonly additiveWaterG: string
  readonly fractionUsed: string
  readonly scalpedPercent: string
  /** Moist aggregate of the whole grading that yields the fraction for this batch. */
  readonly wholeAggregateG: string
}

export type BatchSheetRefusal = {
  readonly code: 'not-a-number' | 'missing-size' | 'not-positive' | 'out-of-range' | 'water-negative'
  readonly sentence: string
}
export type BatchSheetOutcome =
  { readonly ok: true; readonly sheet: BatchSheet } | { readonly ok: false; readonly refusal: BatchSheetRefusal }

/**
 * What to weigh for one batch on the basis of dry aggregate: aggregate × (1 + moisture ÷ 100), and its water taken off the
 * added water. Plain arithmetic of shares; refused where no such batch can be.
 */
export function batchSheet(input: BatchSheetInput): BatchSheetOutcome {
  const refusal = refusalOf(input)
  if (refusal) return { ok: false, refusal }
  const dry = decimal(input.dryAggregateG)
  const share = (percent: string) => dry.times(percent).div(100)
  const additive = share(input.additivePercent)
  const aggregateWater = share(input.moisturePercent)
  const additiveWater = additive.times(input.additiveWaterPercent ?? '0').div(100)
  const water = share(input.waterPercent).minus(aggregateWater).minus(additiveWater)
  if (water.lt(0))
    return { ok: false, refusal: waterNegative(aggregateWater, additiveWater, share(input.waterPercent)) }
  const aggregate = dry.plus(aggregateWater)
  const scalped = input.scalpedPercent ?? '0'
  const rows = [
    { component: 'aggregate', target: aggregate },
    { component: 'filler', target: share(input.fillerPercent) },
    { component: 'water', target: water },
    { component: 'additive', target: additive },
    { component: 'emulsion', target: share(input.emulsionPercent) },
  ] as const
  return {
    ok: true,
    sheet: {
      rows: rows.map(({ component, target }) => ({ component, targetG: plainDigits(target) })),
      dryAggregateG: input.dryAggregateG,
      aggregateWaterG: plainDigits(aggregateWater),
      additiveWaterG: plainDigits(additiveWater),
      fractionUsed: input.fractionUsed ?? '',
      scalpedPercent: scalped,
      wholeAggregateG: plainDigits(aggregate.times(100).div(decimal('100').minus(scalped))),
    },
  }
}

const words = {
  dryAggregateG: 'The dry aggregate of a batch',
  moisturePercent: 'The moisture of the aggregate',
  emulsionPercent: 'The emulsion content',
  fillerPercent: 'The mineral filler',
  waterPercent: 'The added water',
  additivePercent: 'The additive',
  additiveWaterPercent: 'The water in the additive',
  scalpedPercent: 'The part of the aggregate that is taken off',
} as const

function refusalOf(input: BatchSheetInput): BatchSheetRefusal | undefined {
  const refuse = (code: BatchSheetRefusal['code'], sentence: string) => ({ code, sentence })
  for (const key of Object.keys(words) as (keyof typeof words)[]) {
    const digits = input[key]
    if (digits === undefined) continue
    if (!/^-?\d+(\.\d+)?$/.test(digits)) return refuse('not-a-number', `${words[key]} must be a number, like 12.5.`)
    if (decimal(digits).lt(0)) return refuse('out-of-range', `${words[key]} cannot be less than 0.`)
  }
  if (decimal(input.dryAggregateG).isZero())
    return refuse('not-positive', `${words.dryAggregateG} must be more than 0 g.`)
  if (decimal(input.scalpedPercent ?? '0').gte(100))
    return refuse('out-of-range', `${words.scalpedPercent} must be less than 100 %: nothing would be left.`)
  if (decimal(input.additiveWaterPercent ?? '0').gt(100))
    return refuse('out-of-range', `${words.additiveWaterPercent} cannot be more than 100 %.`)
  return undefined
}

function waterNegative(aggregateWater: Decimal, additiveWater: Decimal, wanted: Decimal): BatchSheetRefusal {
  const additive = additiveWater.isZero() ? '' : ` and the additive ${plainDigits(additiveWater)} g`
  return {
    code: 'water-negative',
    sentence: `The aggregate brings ${plainDigits(aggregateWater)} g of water${additive}, more than the ${plainDigits(wanted)} g wanted: dry the aggregate first, or plan more water.`,
  }
}
