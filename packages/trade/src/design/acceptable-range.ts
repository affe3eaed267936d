import type { Calculation } from '../procedure/calculation.ts'
import type { DecimalSign } from '../quantity/display.ts'
import { decimal } from '../quantity/decimal.ts'
import { crossingCalculation, edgeCalculation, midpointCalculation } from './crossing-calculation.ts'
import { analyseCurve, type Curve, type CurveInput } from './curve.ts'
import { findEnd, knownTo, outsideBand, type EndFinding, type RangeBand, type Side } from './range-end.ts'
import { flagOf, flagsBeside, type RangeFlag } from './range-flags.ts'
import { rangeWords, type RangeWords } from './range-words.ts'
import { emulsionOfResidual } from './residual-binder.ts'
import { testedSpan, type TestedSpan } from './tested-span.ts'

export type RangeInput = {
  /** Every property of the specification that bears on the range, those not tested with no points. */
  readonly curves: readonly CurveInput[]
  readonly band: RangeBand
  /** Residue of the emulsion in %, to say contents as emulsion too; null when it is not known. */
  readonly residuePercent: string | null
  /** Basis of x. Default "% of dry aggregate". */
  readonly xUnit?: string
  /** Decimal sign of the sentences. */
  readonly sign?: DecimalSign
}

/** What a range is judged by, its curves apart. */
type RangeTerms = Omit<RangeInput, 'curves'>

export type RangeEnd = {
  readonly kind: 'crossing' | 'band' | 'open' | 'none'
  /** Residual binder, full precision; only of a crossing or the band's edge. */
  readonly value?: string
  /** The same as emulsion, % of dry aggregate, where the residue is known. */
  readonly emulsionPercent?: string
  /** What set it, in words, and which curve where one did. */
  readonly setBy: {
    readonly words: string
    readonly curveKey?: string
    readonly property?: string
    readonly soak?: string
  }
  /** Of an open end: the content up to which something is known. */
  readonly lastTested?: { readonly x: string; readonly emulsionPercent: string; readonly curveKey: string }
  readonly sentence: string
  readonly calculation?: Calculation
}

export type RangeOutcome = 'closed' | 'open' | 'no-range' | 'not-determined' | 'one-content' | 'nothing-tested'

export type AcceptableRange = {
  readonly outcome: RangeOutcome
  /** The outcome in one plain sentence. */
  readonly sentence: string
  readonly ends: { readonly minimum: RangeEnd; readonly maximum: RangeEnd }
  /** Only between two closed ends, with nothing asked for left untested. An aid, no optimum. */
  readonly midpoint?: { readonly value: string; readonly emulsionPercent?: string; readonly calculation: Calculation }
  readonly testedSpan: TestedSpan | null
  /** For a verification: how each tested property stands at the one content. */
  readonly atContent?: readonly {
    readonly curveKey: string
    readonly x: string
    readonly y: string
    readonly unit: string
    readonly meets: boolean
  }[]
  readonly curves: readonly Curve[]
  readonly flags: readonly RangeFlag[]
  /** How limits were compared, to be said beside the range. */
  readonly comparison: string
}

/**
 * The span of contents that meet the limits, from its curves. Each end is the crossing inside the tested span (the greater
 * minimum, the lesser maximum); a crossing outside the band gives way to the band's edge; without a crossing the end is the
 * band's edge if tested contents reach it, else open. Nothing is extrapolated.
 */
export function acceptableRange(input: RangeInput): AcceptableRange {
  return rangeOfCurves(input.curves.map(analyseCurve), input)
}

/** The same from curves that are analysed already: whoever changes one of them computes that one anew. */
export function rangeOfCurves(curves: readonly Curve[], input: RangeTerms): AcceptableRange {
  const words = rangeWords(input)
  const usable = curves.filter((curve) => curve.usable)
  const shared = {
    // Where nothing is held at all, as of declared values, the contents tested are still what can be recommended.
    testedSpan: testedSpan(curves.every(({ limit }) => limit === null) ? curves : usable),
    curves,
    comparison: words.comparison(usable),
  }
  const flags = flagsBeside(curves, words)
  if (usable.length === 0) {
    const tested = curves.some(({ means }) => means.length > 0)
    const flag: RangeFlag = { key: 'nothing-tested', sentence: tested ? words.nothingHeld : words.nothingTested }
    return {
      ...shared,
      outcome: 'nothing-tested',
      sentence: flag.sentence,
      ends: noEnds(flag.sentence),
      flags: [flag, ...flags],
    }
  }
  const outside = usable.filter((curve) => outsideBand(curve, input.band))
  const outsideFlags = outside.map((curve) => flagOf('outside-band', words.outsideBand(curve, input.band), curve))
  const only = onlyContent(usable)
  if (only) {
    const meets = usable.map((curve) => ({ curve, meets: curve.means[0]?.meets === true }))
    const flag: RangeFlag = { key: 'one-content', sentence: words.oneContent(only, meets) }
    return {
      ...shared,
      outcome: 'one-content',
      sentence: flag.sentence,
      ends: noEnds(flag.sentence),
      atContent: usable.flatMap((curve) =>
        curve.means.map(({ x, y, meets: met }) => ({
          curveKey: curve.key,
          x,
          y,
          unit: curve.unit,
          meets: met === true,
        })),
      ),
      flags: [flag, ...outsideFlags, ...flags],
    }
  }
  if (outside.length > 0)
    return {
      ...shared,
      outcome: 'not-determined',
      sentence: words.notDetermined,
      ends: noEnds(words.notDetermined),
      flags: [...outsideFlags, ...flags],
    }
  const minimum = findEnd('minimum', curves, input.band)
  const maximum = findEnd('maximum', curves, input.band)
  const { outcome, sentence, flags: outcomeFlags } = outcomeOf(minimum, maximum, usable, input.band, words)
  const missing = curves.some((curve) => curve.limit !== null && !curve.usable)
  const ends = {
    minimum: endOf('minimum', minimum, curves, input, words),
    maximum: endOf('maximum', maximum, curves, input, words),
  }
  return {
    ...shared,
    outcome,
    sentence,
    ends,
    ...(outcome === 'closed' && !missing ? { midpoint: midpointOf(ends, input) } : {}),
    flags: [...outcomeFlags, ...flags],
  }
}

function outcomeOf(
  minimum: EndFinding,
  maximum: EndFinding,
  usable: readonly Curve[],
  band: RangeBand,
  words: RangeWords,
) {
  const sides = [
    ['minimum', minimum],
    ['maximum', maximum],
  ] as const
  const failing = sides.flatMap(([side, end]) =>
    end.kind === 'none' ? end.failing.map((curve) => ({ side, curve, extend: end.extend.includes(curve) })) : [],
  )
  const flags = failing.map(({ side, curve, extend }) =>
    extend
      ? flagOf('extend-series', words.extend(side, curve), curve)
      : flagOf('no-range', words.bandEnds(curve), curve),
  )
  if (failing.some(({ extend }) => !extend)) {
    const ended = failing.filter(({ extend }) => !extend).map(({ curve }) => curve)
    return { outcome: 'no-range', sentence: words.noneAlike(ended), flags } as const
  }
  if (failing.length > 0) return { outcome: 'not-determined', sentence: words.notDetermined, flags } as const
  const from = knownTo(minimum)
  const to = knownTo(maximum)
  if (from === null || to === null) return { outcome: 'not-determined', sentence: words.notDetermined, flags } as const
  const beyondBand =
    (minimum.kind === 'crossing' && band.to !== null && decimal(minimum.value).gt(band.to) && minimum.curve) ||
    (maximum.kind === 'crossing' && band.from !== null && decimal(maximum.value).lt(band.from) && maximum.curve)
  if (beyondBand) {
    const sentence = words.noneAlike([beyondBand])
    return { outcome: 'no-range', sentence, flags: [flagOf('no-range', sentence, beyondBand)] } as const
  }
  if (decimal(from).gt(to)) {
    if (minimum.kind === 'open' || maximum.kind === 'open')
      return { outcome: 'not-determined', sentence: words.apart, flags } as const
    const sentence = words.noRange(from, to)
    return { outcome: 'no-range', sentence, flags: [{ key: 'no-range', sentence }] } as const
  }
  if (minimum.kind === 'open' || maximum.kind === 'open')
    return { outcome: 'open', sentence: words.open(minimum, maximum, usable), flags } as const
  return { outcome: 'closed', sentence: words.closed(from, to, usable), flags } as const
}

function endOf(side: Side, end: EndFinding, curves: readonly Curve[], input: RangeTerms, words: RangeWords): RangeEnd {
  const xUnit = input.xUnit ?? '% of dry aggregate'
  const waiting = curves.filter((curve) => curve.bears === side && curve.limit !== null && !curve.usable)
  const text = words.setBy(side, end, input.band)
  const sentence = words.end(side, end, waiting)
  const by = (curve: Curve) => ({
    words: text,
    curveKey: curve.key,
    property: curve.property,
    ...(curve.soak === null ? {} : { soak: curve.soak }),
  })
  switch (end.kind) {
    case 'crossing': {
      const calculation = crossingCalculation(end.crossing, end.curve, xUnit)
      return { kind: 'crossing', ...valueOf(end.value, input), setBy: by(end.curve), sentence, calculation }
    }
    case 'band': {
      const edge = { value: end.value, source: input.band.source }
      const calculation = end.crossed
        ? crossingCalculation(end.crossed.crossing, end.crossed.curve, xUnit, edge)
        : edgeCalculation(edge, xUnit)
      return { kind: 'band', ...valueOf(end.value, input), setBy: { words: text }, sentence, calculation }
    }
    case 'open': {
      const { x, emulsionPercent } = end.lastTested
      return {
        kind: 'open',
        setBy: { words: text },
        lastTested: { x, emulsionPercent, curveKey: end.curve.key },
        sentence,
      }
    }
    case 'none':
      return { kind: 'none', setBy: { words: text }, sentence }
  }
}

function valueOf(value: string, { residuePercent }: RangeTerms) {
  return residuePercent === null ? { value } : { value, emulsionPercent: emulsionOfResidual(value, residuePercent) }
}

function midpointOf({ minimum, maximum }: AcceptableRange['ends'], input: RangeTerms) {
  const xUnit = input.xUnit ?? '% of dry aggregate'
  const calculation = midpointCalculation(minimum.value ?? '', maximum.value ?? '', xUnit)
  return { ...valueOf(calculation.lines.at(-1)?.value ?? '', input), calculation }
}

function noEnds(sentence: string): AcceptableRange['ends'] {
  const none: RangeEnd = { kind: 'none', setBy: { words: 'not determined' }, sentence }
  return { minimum: none, maximum: none }
}

function onlyContent(usable: readonly Curve[]) {
  const means = usable.flatMap((curve) => curve.means)
  const first = means[0]
  return first && means.every(({ mixId }) => mixId === first.mixId) ? first : undefined
}
