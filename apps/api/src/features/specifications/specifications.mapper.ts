import type { BuiltInSpecification, Limit, Specification } from '@curebook/contract/specifications'
import { variantOf } from '@curebook/trade/specification/adopt'
import {
  type BuiltInSpecification as ShippedSpecification,
  comparisonWords,
  type Limit as TradeLimit,
  type Specification as TradeSpecification,
} from '@curebook/trade/specification/specification'
import type { SpecificationRow } from './specifications.repository.ts'

/** The specification as the trade's rules read it: exactly what was stored. */
export function toRules({ limits }: Pick<SpecificationRow, 'limits'>): TradeSpecification {
  return JSON.parse(limits) as TradeSpecification
}

export function toSpecification(row: SpecificationRow): Specification {
  const { source, decisionRule, aggregateType, traffic, residualBand, limits } = toRules(row)
  return {
    id: row.id,
    key: row.key,
    revision: row.revision,
    name: row.name,
    source,
    decisionRule,
    comparison: comparisonOf(limits),
    aggregateType,
    traffic,
    residualBand: { ...residualBand },
    limits: limits.map(toLimit),
    createdAt: row.at.toISOString(),
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
          ? [{ aggregateType, traffic, residualBand: { ...variant.residualBand }, limits: variant.limits.map(toLimit) }]
          : []
      }),
    ),
  }
}

function toLimit({ alsoPublished, ...limit }: TradeLimit): Limit {
  return { ...limit, alsoPublished: alsoPublished.map((document) => ({ ...document })) }
}

/** How results are compared; where limits differ in it, each way with its limits. */
function comparisonOf(limits: readonly TradeLimit[]): string {
  const rules = [...new Set(limits.map(({ rounding }) => rounding))]
  if (rules.length === 1) return comparisonWords(rules[0]!)
  return rules
    .map(
      (rule) =>
        `${limits
          .filter(({ rounding }) => rounding === rule)
          .map(({ label }) => label)
          .join(', ')}: ${comparisonWords(rule)}`,
    )
    .join('; ')
}
