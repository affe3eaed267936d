import { bandWords } from './gradation-band.ts'
import { limitWords } from './judge.ts'
import { decisionWords, endsOf } from './limit-decision.ts'
import {
  comparisonWords,
  type GradationBand,
  type Limit,
  type ResidualBand,
  type Specification,
} from './specification.ts'

/** One thing in which two versions differ; null where one of them does not have it. */
export type SpecificationChange = {
  readonly what: string
  readonly before: string | null
  readonly after: string | null
}

/** What a version says otherwise than the one before it, in the order in which it is shown. */
export function changesBetween(before: Specification, after: Specification): readonly SpecificationChange[] {
  const keys = [...new Set([...before.limits, ...after.limits].map(({ key }) => key))]
  const limits = keys.flatMap((key) => {
    const [old, now] = [before, after].map(({ limits: held }) => held.find((limit) => limit.key === key))
    return differing((now ?? old)!.label, old && wordsOfLimit(old, now), now && wordsOfLimit(now, old))
  })
  return [
    ...differing('Name', before.name, after.name),
    ...differing('Source', before.source, after.source),
    ...differing('Aggregate type', before.aggregateType, after.aggregateType),
    ...differing('Traffic', before.traffic, after.traffic),
    ...differing('Residual binder allowed', wordsOfBand(before.residualBand), wordsOfBand(after.residualBand)),
    ...limits,
    ...changesOfGradation(before.gradationBand ?? null, after.gradationBand ?? null),
    ...differing('Told beside the limits', wordsOfInformation(before), wordsOfInformation(after)),
  ]
}

function differing(what: string, before: string | undefined, after: string | undefined): SpecificationChange[] {
  return before === after ? [] : [{ what, before: before ?? null, after: after ?? null }]
}

/**
 * Whether two texts of a limit ask for the same: what answers it, and all that a value is held against. What is known of the
 * one beside its own number (the figure in US units, what others print) then holds of the other.
 */
export function asksTheSame(one: Limit, other: Limit): boolean {
  const asked = ({ property, soak, traffic, group, condition, sense, value, upper, unit, certainty }: Limit) =>
    JSON.stringify([property, soak, traffic, group ?? 'mix', condition, sense, value, upper ?? null, unit, certainty])
  return asked(one) === asked(other)
}

/** All of a limit that a reader decides by; what stands in every limit and is seldom changed, only where the other differs. */
function wordsOfLimit(limit: Limit, other: Limit | undefined): string {
  const { label, soak, condition, rounding, source, clause, certainty, method } = limit
  return [
    label,
    limitWords(limit),
    ...(soak ? [`${soak} soak`] : []),
    ...(condition ? [condition] : []),
    comparisonWords(rounding, limit.decisionRule),
    decisionWords(limit),
    ...(method ? [method] : []),
    [source, ...(clause ? [clause] : [])].join(', '),
    certainty,
    ...(other ? seldomChanged(limit).filter((words) => !seldomChanged(other).includes(words)) : []),
  ].join('; ')
}

/** What says which test answers a limit and for whom it stands; the words of the limit hold unit and sense where it has ends. */
function seldomChanged(limit: Limit): readonly string[] {
  const { property, traffic, group = 'mix', unit, sense } = limit
  const unheld = endsOf(limit) ? [] : [`in ${unit}`, `sense: ${sense}`]
  return [`answered by results of ${property}`, `${traffic ?? 'any'} traffic`, `of the ${group}`, ...unheld]
}

function wordsOfBand({ from, to, unit, source, certainty }: ResidualBand): string {
  const span = from === null && to === null ? 'no band held' : `${from ?? 'open'} to ${to ?? 'open'} ${unit}`
  return `${span}; ${source}; ${certainty}`
}

function wordsOfInformation({ information = [] }: Specification): string {
  return information.map(({ label, words, source }) => `${label}: ${words} (${source})`).join('; ')
}

function changesOfGradation(before: GradationBand | null, after: GradationBand | null): SpecificationChange[] {
  const sizes = [...new Set([...(before?.sieves ?? []), ...(after?.sieves ?? [])].map(({ size }) => size))]
  const at = (band: GradationBand | null, size: string) => {
    const sieve = band?.sieves.find((each) => each.size === size)
    return sieve && `${bandWords(sieve)}${sieve.tolerance === null ? '' : `, stockpile ± ${sieve.tolerance}`}`
  }
  const sourceOf = (band: GradationBand | null) =>
    band ? [band.source, ...(band.clause ? [band.clause] : []), band.certainty].join('; ') : undefined
  return [
    ...differing('Gradation, source', sourceOf(before), sourceOf(after)),
    ...sizes.flatMap((size) => differing(`Gradation, ${size} mm`, at(before, size), at(after, size))),
  ]
}
