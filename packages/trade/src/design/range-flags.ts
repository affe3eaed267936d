import type { Curve } from './curve.ts'
import type { RangeWords } from './range-words.ts'
import { unusualSoakRatios } from './soak-ratio.ts'

export type RangeFlagKey =
  | 'extend-series'
  | 'no-range'
  | 'one-content'
  | 'nothing-tested'
  | 'missing-method'
  | 'no-limit-held'
  | 'other-unit'
  | 'non-monotone'
  | 'crosses-back'
  | 'outside-band'
  | 'tested-unequally'
  | 'few-replicates'
  | 'soak-ratio'
/** Something to know beside the range, in a sentence. */
export type RangeFlag = { readonly key: RangeFlagKey; readonly sentence: string; readonly curveKey?: string }

/** What is to be said of the curves whatever the range comes out as, curve by curve and then of all together. */
export function flagsBeside(curves: readonly Curve[], words: RangeWords): readonly RangeFlag[] {
  return [
    ...curves.flatMap((curve) => curveFlags(curve, words)),
    ...unequalFlag(
      curves.filter(({ usable }) => usable),
      words,
    ),
    ...soakRatioFlags(curves, words),
  ]
}

/** A flag that belongs to a curve. */
export function flagOf(key: RangeFlagKey, sentence: string, curve: Curve): RangeFlag {
  return { key, sentence, curveKey: curve.key }
}

function curveFlags(curve: Curve, words: RangeWords): readonly RangeFlag[] {
  if (curve.limit === null) return curve.points.length > 0 ? [flagOf('no-limit-held', words.noLimit(curve), curve)] : []
  if (curve.means.length === 0) return [flagOf('missing-method', words.missing(curve), curve)]
  if (!curve.usable) return [flagOf('other-unit', words.otherUnit(curve), curve)]
  const back = curve.bears === 'minimum' ? curve.stretch?.to.crossing : curve.stretch?.from.crossing
  return [
    ...(curve.turns.length > 0 ? [flagOf('non-monotone', words.turns(curve), curve)] : []),
    ...(back ? [flagOf('crosses-back', words.crossesBack(curve, back.x), curve)] : []),
    ...[1, 2].flatMap((few) => {
      const means = curve.means.filter(({ n }) => n === few)
      return means.length > 0 ? [flagOf('few-replicates', words.replicates(curve, means, few), curve)] : []
    }),
  ]
}

function unequalFlag(usable: readonly Curve[], words: RangeWords): readonly RangeFlag[] {
  const mixes = usable.map(({ means }) => [...means.map(({ mixId }) => mixId)].sort().join(' '))
  return new Set(mixes).size > 1 ? [{ key: 'tested-unequally', sentence: words.unequal(usable) }] : []
}

function soakRatioFlags(curves: readonly Curve[], words: RangeWords): readonly RangeFlag[] {
  const found = unusualSoakRatios(curves)
  return (['less', 'more'] as const).flatMap((side) => {
    const ofSide = found.filter((one) => one.side === side)
    const [first] = ofSide
    return first ? [flagOf('soak-ratio', words.soakRatio(first.curve, side, ofSide), first.curve)] : []
  })
}
