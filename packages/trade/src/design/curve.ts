import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { replicateSummary } from '../statistics/replicate-summary.ts'

/** One specimen on a curve. x is the binder content as weighed, never the target; y stands in the limit's own unit. */
export type CurvePoint = {
  readonly testId: string
  /** The result that y is, and the result that x is, for the calculation. */
  readonly resultId: string
  readonly xResultId?: string
  readonly code: string
  /** Content and replicate: "10-1". */
  readonly label: string
  readonly mixId: string
  /** Target of the mix, % of dry aggregate: names the content, never places it. */
  readonly emulsionPercent: string
  readonly x: string
  readonly y: string
  /** What a reader should know of this point. */
  readonly flags: readonly string[]
}

export type CurveLimit = {
  /** What the line is compared with and crosses: the limit, or the acceptance limit under a guard band. */
  readonly value: string
  readonly unit: string
  readonly sense: 'max' | 'min'
  readonly label: string
  readonly source: string
  /** Where a rule decides by an uncertainty: the rule, the limit as it is held, and the rule in words. */
  readonly decision?: {
    readonly rule: 'guard band' | 'non-binary'
    readonly held: string
    readonly words: string
  }
}

/** One property over the contents, as it bears on one end of the range. */
export type CurveInput = {
  readonly key: string
  /** In words, as it stands in sentences: "Abrasion, 6-day soak". */
  readonly label: string
  readonly property: string
  readonly soak: string | null
  /** Abrasion bears on the minimum, adhesion and displacement on the maximum. */
  readonly bears: 'minimum' | 'maximum'
  /** Unit of every y. */
  readonly unit: string
  /** Null when no limit is held: the curve then sets nothing. */
  readonly limit: CurveLimit | null
  /** Empty when the specification asks for it and it is not tested. */
  readonly points: readonly CurvePoint[]
}

/** The replicates of one mix. */
export type CurveMean = {
  readonly mixId: string
  readonly emulsionPercent: string
  /** Mean content as weighed and mean result, full precision. */
  readonly x: string
  readonly y: string
  readonly n: number
  readonly standardDeviation: string | null
  readonly min: string
  readonly max: string
  readonly range: string
  /** Whether the mean meets the limit, unrounded; null without a limit. */
  readonly meets: boolean | null
  readonly points: readonly CurvePoint[]
}

/** Where the line between two means meets the limit; equal means when a mean lies on it. */
export type CurveCrossing = {
  readonly x: string
  readonly lean: CurveMean
  readonly rich: CurveMean
}
/** A stretch of the line that meets the limit; an end without a crossing is the last tested content. */
export type CurveStretch = {
  readonly from: { readonly x: string; readonly crossing: CurveCrossing | null }
  readonly to: { readonly x: string; readonly crossing: CurveCrossing | null }
}

export type Curve = CurveInput & {
  /** In order of x. */
  readonly means: readonly CurveMean[]
  /** The stretch that counts: the richest for a curve that bears on the minimum, the leanest for one on the maximum. */
  readonly stretch: CurveStretch | null
  /** The crossing at the end that the curve bears on. */
  readonly crossing: CurveCrossing | null
  /** Pairs of neighbouring means between which the curve turns against its direction. */
  readonly turns: readonly (readonly [CurveMean, CurveMean])[]
  /** Whether the curve can set an end: it has points and a limit in its own unit. */
  readonly usable: boolean
}

/** Means, and where the straight lines between them meet the limit. Nothing is said beyond the first and last mean. */
export function analyseCurve(input: CurveInput): Curve {
  const means = meansOf(input)
  const usable = means.length > 0 && input.limit !== null && input.limit.unit === input.unit
  const stretches = usable && input.limit ? stretchesOf(means, input.limit, input.bears) : []
  const stretch = (input.bears === 'minimum' ? stretches.at(-1) : stretches[0]) ?? null
  const crossing = (input.bears === 'minimum' ? stretch?.from.crossing : stretch?.to.crossing) ?? null
  return { ...input, means, stretch, crossing, turns: usable ? turnsOf(input, means) : [], usable }
}

function meansOf({ points, limit, unit }: CurveInput): readonly CurveMean[] {
  const byMix = new Map<string, CurvePoint[]>()
  // A fixed order, so that the last digit of a sum does not depend on the order of weighing.
  for (const point of [...points].sort((a, b) => (a.testId < b.testId ? -1 : a.testId > b.testId ? 1 : 0)))
    byMix.set(point.mixId, [...(byMix.get(point.mixId) ?? []), point])
  const means = [...byMix].map(([mixId, replicates]): CurveMean => {
    const { mean: y, ...summary } = replicateSummary(replicates.map((point) => point.y))
    const x = replicateSummary(replicates.map((point) => point.x)).mean
    const meets = limit && limit.unit === unit ? slack(y, limit).gte(0) : null
    return { mixId, emulsionPercent: replicates[0]?.emulsionPercent ?? '', x, y, ...summary, meets, points: replicates }
  })
  return means.sort(
    (a, b) =>
      decimal(a.x).cmp(b.x) ||
      decimal(a.emulsionPercent).cmp(b.emulsionPercent) ||
      (a.mixId < b.mixId ? -1 : a.mixId > b.mixId ? 1 : 0),
  )
}

/** How far y is inside its limit; negative outside. */
function slack(y: string, limit: CurveLimit): Decimal {
  return limit.sense === 'max' ? decimal(limit.value).minus(y) : decimal(y).minus(limit.value)
}

function stretchesOf(
  means: readonly CurveMean[],
  limit: CurveLimit,
  bears: CurveInput['bears'],
): readonly CurveStretch[] {
  const stretches: CurveStretch[] = []
  let from: CurveStretch['from'] | null = null
  means.forEach((mean, index) => {
    const before = means[index - 1]
    if (mean.meets && !from)
      from = before ? crossedAt(before, mean, limit) : outermost(mean, limit, bears === 'minimum')
    if (!mean.meets && from && before) {
      stretches.push({ from, to: crossedAt(before, mean, limit) })
      from = null
    }
  })
  const last = means.at(-1)
  if (from && last) stretches.push({ from, to: outermost(last, limit, bears === 'maximum') })
  return stretches
}

/** The first or last tested content: an end only where its mean lies on the limit and the curve bears on that side. */
function outermost(mean: CurveMean, limit: CurveLimit, bearing: boolean): CurveStretch['from'] {
  const { x } = mean
  return { x, crossing: bearing && decimal(mean.y).eq(limit.value) ? { x, lean: mean, rich: mean } : null }
}

function crossedAt(lean: CurveMean, rich: CurveMean, limit: CurveLimit): CurveStretch['from'] {
  const onLimit = [lean, rich].find((mean) => decimal(mean.y).eq(limit.value))
  if (onLimit) return { x: onLimit.x, crossing: { x: onLimit.x, lean: onLimit, rich: onLimit } }
  const run = decimal(limit.value).minus(lean.y).times(decimal(rich.x).minus(lean.x))
  const x = plainDigits(decimal(lean.x).plus(run.div(decimal(rich.y).minus(lean.y))))
  return { x, crossing: { x, lean, rich } }
}

function turnsOf({ bears, limit }: CurveInput, means: readonly CurveMean[]): Curve['turns'] {
  if (!limit) return []
  const grows = bears === 'minimum'
  return means.slice(1).flatMap((mean, index) => {
    const before = means[index]
    if (!before) return []
    const change = slack(mean.y, limit).minus(slack(before.y, limit))
    return (grows ? change.lt(0) : change.gt(0)) ? [[before, mean] as const] : []
  })
}
