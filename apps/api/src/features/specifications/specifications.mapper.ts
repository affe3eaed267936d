import type { SpecificationHistory } from '@curebook/contract/own-specifications'
import type { BuiltInSpecification, GradationBand, Limit, Specification } from '@curebook/contract/specifications'
import { variantOf } from '@curebook/trade/specification/adopt'
import { decisionsWords, decisionWords } from '@curebook/trade/specification/limit-decision'
import { changesBetween } from '@curebook/trade/specification/specification-changes'
import {
  type BuiltInSpecification as ShippedSpecification,
  comparisonWords,
  type GradationBand as TradeGradationBand,
  type Limit as TradeLimit,
  type Specification as TradeSpecification,
} from '@curebook/trade/specification/specification'
import { personName } from '#platform/row-values'
import { type PlaceInLine, placesInLines } from './specification-lines.ts'
import type { SpecificationRow } from './specifications.repository.ts'

/** The specification as the trade's rules read it. */
export function toRules({ limits }: Pick<SpecificationRow, 'limits'>): TradeSpecification {
  const rules = JSON.parse(limits) as TradeSpecification
  return { ...rules, residualBand: byContract(rules.residualBand), limits: rules.limits.map(byContract) }
}

/** Copies made before a contract's value was told from a published one hold it as published: what changed says otherwise. */
function byContract<Of extends Pick<TradeLimit, 'certainty'> & { readonly changedFrom: unknown }>(held: Of): Of {
  return held.changedFrom === null ? held : { ...held, certainty: 'by contract' }
}

export function toSpecification(row: SpecificationRow, place: PlaceInLine): Specification {
  const { source, aggregateType, traffic, residualBand, gradationBand, information, limits } = toRules(row)
  return {
    id: row.id,
    key: row.key,
    revision: row.revision,
    ...place,
    project: row.project,
    reason: row.reason,
    by: row.by && personName(row.by),
    name: row.name,
    source,
    decisionRule: decisionsWords(limits),
    comparison: comparisonOf(limits),
    aggregateType,
    traffic,
    residualBand: { ...residualBand },
    gradationBand: toGradationBand(gradationBand ?? null),
    information: (information ?? []).map((said) => ({ ...said })),
    limits: limits.map(toLimit),
    createdAt: row.at.toISOString(),
  }
}

/** A line with what each version changed against the one before it, the newest first. */
export function toHistory(
  id: string,
  line: readonly SpecificationRow[],
  { designs, projects }: { designs: ReadonlyMap<string, number>; projects: ReadonlyMap<string, number> },
): SpecificationHistory {
  const places = placesInLines(line)
  const shown = line.find((row) => row.id === id)!
  const withdrawal = line.at(-1)!.withdrawal
  const versions = line.map((row, index) => {
    const before = line[index - 1]
    return {
      id: row.id,
      version: index + 1,
      name: row.name,
      by: row.by && personName(row.by),
      at: row.at.toISOString(),
      reason: row.reason,
      changes: before ? changesBetween(toRules(before), toRules(row)).map((change) => ({ ...change })) : [],
      designs: designs.get(row.id) ?? 0,
      projects: projects.get(row.id) ?? 0,
    }
  })
  return {
    specification: toSpecification(shown, places.get(id)!),
    versions: versions.toReversed(),
    withdrawn: withdrawal && {
      by: personName(withdrawal.by),
      at: withdrawal.at.toISOString(),
      reason: withdrawal.reason,
    },
  }
}

/** Shipped guideline values in every variant that can be adopted. */
export function toBuiltIn(builtIn: ShippedSpecification): BuiltInSpecification {
  const aggregateTypes = Object.keys(builtIn.residualBands)
  return {
    key: builtIn.key,
    name: builtIn.name,
    source: builtIn.source,
    aggregateTypes,
    traffics: [...builtIn.traffics],
    variants: aggregateTypes.flatMap((aggregateType) =>
      builtIn.traffics.flatMap((traffic) => {
        const variant = variantOf(builtIn, aggregateType, traffic)
        return variant
          ? [
              {
                aggregateType,
                traffic,
                residualBand: { ...variant.residualBand },
                gradationBand: toGradationBand(variant.gradationBand),
                information: variant.information.map((said) => ({ ...said })),
                limits: variant.limits.map(toLimit),
              },
            ]
          : []
      }),
    ),
  }
}

/** Copies made earlier hold neither upper end nor uncertainty, clause, method and group. */
function toLimit({ alsoPublished, changedFrom, ...limit }: TradeLimit): Limit {
  return {
    ...limit,
    upper: limit.upper ?? null,
    uncertainty: limit.uncertainty ? { ...limit.uncertainty } : null,
    comparison: `${comparisonWords(limit.rounding, limit.decisionRule)}, ${decisionWords(limit)}`,
    clause: limit.clause ?? null,
    method: limit.method ?? null,
    group: limit.group ?? 'mix',
    alsoPublished: alsoPublished.map((document) => ({ ...document })),
    changedFrom: changedFrom && { ...changedFrom, upper: changedFrom.upper ?? null },
  }
}

export function toGradationBand(band: TradeGradationBand | null): GradationBand | null {
  return band && { ...band, clause: band.clause ?? null, sieves: band.sieves.map((sieve) => ({ ...sieve })) }
}

/** How results are compared; where limits differ in it, each way with its limits. */
function comparisonOf(limits: readonly TradeLimit[]): string {
  const wordsOf = ({ rounding, decisionRule }: TradeLimit) => comparisonWords(rounding, decisionRule)
  const rules = [...new Set(limits.map(wordsOf))]
  if (rules.length === 1) return rules[0]!
  return rules
    .map(
      (rule) =>
        `${limits
          .filter((limit) => wordsOf(limit) === rule)
          .map(({ label }) => label)
          .join(', ')}: ${rule}`,
    )
    .join('; ')
}
