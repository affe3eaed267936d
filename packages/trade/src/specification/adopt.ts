import type { RoundingRule } from '../quantity/rounding.ts'
import type { BuiltInSpecification, Limit, ResidualBand, Specification, Traffic } from './specification.ts'

/** What the contract asks for instead of a built-in value. */
export type LimitChange = {
  readonly limitKey: string
  /** Null takes the limit away: the property is still asked for. */
  readonly value: string | null
  /** Only where the contract states it in another unit; results are then computed in that unit. */
  readonly unit?: string
  readonly rounding?: RoundingRule
  /** Where the contract asks for it. */
  readonly reason: string
}
export type Adoption = {
  readonly name: string
  readonly aggregateType: string
  readonly traffic: Traffic
  readonly changes: readonly LimitChange[]
  readonly residualBand?: { readonly from: string | null; readonly to: string | null; readonly reason: string }
  /** How results are cut for all limits; the absolute method without it. */
  readonly rounding?: RoundingRule
}

export type AdoptionProblem = {
  readonly code:
    'unknown-type' | 'unknown-traffic' | 'unknown-limit' | 'not-a-number' | 'duplicate-change' | 'band-reversed'
  readonly path: string
  readonly sentence: string
}
export type AdoptionOutcome =
  | { readonly ok: true; readonly specification: Specification }
  | { readonly ok: false; readonly problems: readonly AdoptionProblem[] }

/** Limits and band of one aggregate type and traffic class, as they would be adopted unchanged; undefined if not held. */
export function variantOf(
  builtIn: BuiltInSpecification,
  aggregateType: string,
  traffic: Traffic,
): { readonly residualBand: ResidualBand; readonly limits: readonly Limit[] } | undefined {
  const residualBand = builtIn.residualBands[aggregateType]
  if (!residualBand || !builtIn.traffics.includes(traffic)) return undefined
  return { residualBand, limits: builtIn.limits.filter((limit) => limit.traffic === null || limit.traffic === traffic) }
}

/** A copy of the guideline values with the contract's changes, each keeping the built-in value beside it. */
export function adoptSpecification(builtIn: BuiltInSpecification, adoption: Adoption): AdoptionOutcome {
  const variant = variantOf(builtIn, adoption.aggregateType, adoption.traffic)
  const problems = variant ? problemsOf(adoption, variant.limits) : unknownVariant(builtIn, adoption)
  if (!variant || problems.length > 0) return { ok: false, problems }
  const { name, aggregateType, traffic } = adoption
  return {
    ok: true,
    specification: {
      builtInKey: builtIn.key,
      name,
      source: builtIn.source,
      aggregateType,
      traffic,
      decisionRule: 'simple acceptance',
      residualBand: adoptBand(variant.residualBand, adoption),
      limits: variant.limits.map((limit) => adoptLimit(limit, adoption)),
    },
  }
}

function adoptLimit(limit: Limit, { changes, rounding }: Adoption): Limit {
  const change = changes.find(({ limitKey }) => limitKey === limit.key)
  const ruled = { ...limit, rounding: change?.rounding ?? rounding ?? limit.rounding }
  if (!change) return ruled
  const unit = change.unit ?? limit.unit
  const kept = change.value === limit.value && unit === limit.unit
  if (kept) return { ...ruled, changeReason: change.reason }
  return {
    ...ruled,
    value: change.value,
    unit,
    usValue: null,
    usUnit: null,
    source: change.reason,
    certainty: 'published',
    changedFrom: { value: limit.value, unit: limit.unit, source: limit.source },
    changeReason: change.reason,
  }
}

function adoptBand(band: ResidualBand, { residualBand: change }: Adoption): ResidualBand {
  if (!change || (change.from === band.from && change.to === band.to)) return band
  const { from, to, reason } = change
  const changedFrom = { from: band.from, to: band.to, source: band.source }
  return { ...band, from, to, source: reason, certainty: 'published', changedFrom, changeReason: reason }
}

function unknownVariant(builtIn: BuiltInSpecification, { aggregateType }: Adoption): readonly AdoptionProblem[] {
  const types = Object.keys(builtIn.residualBands)
  if (!types.includes(aggregateType))
    return [
      {
        code: 'unknown-type',
        path: 'aggregateType',
        sentence: `${builtIn.name} is held for ${types.join(', ')}, not for ${aggregateType}.`,
      },
    ]
  const sentence = `${builtIn.name} is held for ${builtIn.traffics.join(', ')} traffic.`
  return [{ code: 'unknown-traffic', path: 'traffic', sentence }]
}

function problemsOf({ changes, residualBand }: Adoption, limits: readonly Limit[]): readonly AdoptionProblem[] {
  const found: AdoptionProblem[] = []
  const say = (code: AdoptionProblem['code'], path: string, sentence: string) => found.push({ code, path, sentence })
  changes.forEach(({ limitKey, value }, index) => {
    const path = `changes.${index}`
    if (!limits.some(({ key }) => key === limitKey))
      say('unknown-limit', `${path}.limitKey`, `There is no limit “${limitKey}” for this type and traffic.`)
    if (changes.slice(0, index).some((earlier) => earlier.limitKey === limitKey))
      say('duplicate-change', `${path}.limitKey`, 'This limit is changed twice.')
    if (value !== null && !isNumber(value)) say('not-a-number', `${path}.value`, 'A limit must be a number, like 538.')
  })
  const edges = [residualBand?.from ?? null, residualBand?.to ?? null]
  if (edges.some((edge) => edge !== null && !isNumber(edge)))
    say('not-a-number', 'residualBand', 'The edges of the band must be numbers, like 5.5.')
  else if (edges[0] && edges[1] && Number(edges[0]) >= Number(edges[1]))
    say('band-reversed', 'residualBand', 'The band must begin below where it ends.')
  return found
}

function isNumber(digits: string): boolean {
  return /^\d+(\.\d+)?$/.test(digits)
}
