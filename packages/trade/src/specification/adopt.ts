import { decimal } from '../quantity/decimal.ts'
import type { RoundingRule } from '../quantity/rounding.ts'
import type {
  BuiltInSpecification,
  GradationBand,
  Information,
  Limit,
  ResidualBand,
  Specification,
  Traffic,
} from './specification.ts'

/** What the contract asks for instead of a built-in value. */
export type LimitChange = {
  readonly limitKey: string
  /** Null takes the limit away: the property is still asked for. */
  readonly value: string | null
  /** The upper end, where the limit holds two. */
  readonly upper?: string | null
  /** Only where the contract states it in another unit; results are then computed in that unit. */
  readonly unit?: string
  readonly rounding?: RoundingRule
  /** The contract document and its clause: the source of the changed limit. */
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
    | 'unknown-type'
    | 'unknown-traffic'
    | 'unknown-limit'
    | 'not-a-number'
    | 'duplicate-change'
    | 'band-reversed'
    | 'declared'
  readonly path: string
  readonly sentence: string
}
export type AdoptionOutcome =
  | { readonly ok: true; readonly specification: Specification }
  | { readonly ok: false; readonly problems: readonly AdoptionProblem[] }

/** What is held for one aggregate type and traffic class, as it would be adopted unchanged. */
export type Variant = {
  readonly residualBand: ResidualBand
  /** Null where the source holds no gradation for the type. */
  readonly gradationBand: GradationBand | null
  readonly limits: readonly Limit[]
  readonly information: readonly Information[]
}

/** Limits and bands of one aggregate type and traffic class, as they would be adopted unchanged; undefined if not held. */
export function variantOf(builtIn: BuiltInSpecification, aggregateType: string, traffic: Traffic): Variant | undefined {
  const residualBand = builtIn.residualBands[aggregateType]
  if (!residualBand || !builtIn.traffics.includes(traffic)) return undefined
  const isOfType = ({ types }: { readonly types?: readonly string[] }) => types?.includes(aggregateType) ?? true
  return {
    residualBand,
    gradationBand: builtIn.gradationBands?.[aggregateType] ?? null,
    limits: builtIn.limits
      .filter((limit) => isOfType(limit) && (limit.traffic === null || limit.traffic === traffic))
      .map(({ types: _, ...limit }) => limit),
    information: (builtIn.information ?? []).filter(isOfType).map(({ types: _, ...said }) => said),
  }
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
      gradationBand: variant.gradationBand,
      information: variant.information,
      limits: variant.limits.map((limit) => adoptLimit(limit, adoption)),
    },
  }
}

function adoptLimit(limit: Limit, { changes, rounding }: Adoption): Limit {
  const change = changes.find(({ limitKey }) => limitKey === limit.key)
  const ruled = { ...limit, rounding: change?.rounding ?? rounding ?? limit.rounding }
  if (!change) return ruled
  const unit = change.unit ?? limit.unit
  const upper = limit.sense === 'between' ? { upper: change.value === null ? null : (change.upper ?? null) } : {}
  const kept = change.value === limit.value && unit === limit.unit && (upper.upper ?? null) === (limit.upper ?? null)
  if (kept) return { ...ruled, changeReason: change.reason }
  return {
    ...ruled,
    value: change.value,
    ...upper,
    unit,
    usValue: null,
    usUnit: null,
    source: change.reason,
    certainty: 'by contract',
    changedFrom: {
      value: limit.value,
      ...(limit.sense === 'between' ? { upper: limit.upper ?? null } : {}),
      unit: limit.unit,
      source: limit.source,
    },
    changeReason: change.reason,
  }
}

function adoptBand(band: ResidualBand, { residualBand: change }: Adoption): ResidualBand {
  if (!change || (change.from === band.from && change.to === band.to)) return band
  const { from, to, reason } = change
  const changedFrom = { from: band.from, to: band.to, source: band.source }
  return { ...band, from, to, source: reason, certainty: 'by contract', changedFrom, changeReason: reason }
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
  changes.forEach(({ limitKey, value, upper = null }, index) => {
    const path = `changes.${index}`
    const limit = limits.find(({ key }) => key === limitKey)
    if (!limit) say('unknown-limit', `${path}.limitKey`, `There is no limit “${limitKey}” for this type and traffic.`)
    if (changes.slice(0, index).some((earlier) => earlier.limitKey === limitKey))
      say('duplicate-change', `${path}.limitKey`, 'This limit is changed twice.')
    if (value !== null && !isNumber(value)) say('not-a-number', `${path}.value`, 'A limit must be a number, like 538.')
    if (value !== null && limit?.sense === 'declared')
      say(
        'declared',
        `${path}.value`,
        'This is declared and has no limit: to hold one, write a specification of your own.',
      )
    if (value === null || limit?.sense !== 'between') return
    if (upper === null || !isNumber(upper))
      say('not-a-number', `${path}.upper`, 'This limit has two ends: give the upper one too, a number like 90.')
    else if (isNumber(value) && decimal(value).gte(upper))
      say('band-reversed', `${path}.upper`, 'The upper end must lie above the lower one.')
  })
  const edges = [residualBand?.from ?? null, residualBand?.to ?? null]
  if (edges.some((edge) => edge !== null && !isNumber(edge)))
    say('not-a-number', 'residualBand', 'The edges of the band must be numbers, like 5.5.')
  else if (edges[0] && edges[1] && decimal(edges[0]).gte(edges[1]))
    say('band-reversed', 'residualBand', 'The band must begin below where it ends.')
  return found
}

/** Digits of a limit: no sign, a point as decimal sign. */
export function isNumber(digits: string): boolean {
  return /^\d+(\.\d+)?$/.test(digits)
}
