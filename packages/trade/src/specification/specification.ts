import type { Certainty } from '../procedure/declaration.ts'
import type { RoundingRule } from '../quantity/rounding.ts'

export type Traffic = 'heavy' | 'medium' | 'light'

/** What one property must meet. Digits are strings, so that a specification is the same text wherever it is kept. */
export type Limit = {
  readonly key: string
  readonly property: string
  /** In words: "Abrasion loss, 1-hour soak". */
  readonly label: string
  readonly soak: string | null
  /** Traffic class for which it is held; null for all. */
  readonly traffic: Traffic | null
  readonly sense: 'max' | 'min'
  /** Null: the property is asked for, and no limit is held. */
  readonly value: string | null
  /** Unit of the limit, of the results compared with it, and of the curve of record. */
  readonly unit: string
  /** The pair printed in US units, shown beside and never compared. */
  readonly usValue: string | null
  readonly usUnit: string | null
  /** How a result is cut before it is compared: `none` is the absolute method, any other the rounding method (ASTM E29). */
  readonly rounding: RoundingRule
  readonly decisionRule: 'simple acceptance'
  readonly source: string
  readonly certainty: Certainty
  /** The same limit, or an agency's own, as read in a published document. */
  readonly alsoPublished: readonly { readonly source: string; readonly value: string; readonly unit: string }[]
  /** Condition under which it holds: "at 25 °C", "quick-traffic systems". */
  readonly condition: string | null
  /** The built-in limit that the contract changed, and where the contract asks for it. */
  readonly changedFrom: { readonly value: string | null; readonly unit: string; readonly source: string } | null
  readonly changeReason: string | null
}

/** Residual binder allowed, % of dry aggregate. */
export type ResidualBand = {
  readonly from: string | null
  readonly to: string | null
  readonly unit: '% of dry aggregate'
  readonly source: string
  readonly certainty: Certainty
  readonly changedFrom: { readonly from: string | null; readonly to: string | null; readonly source: string } | null
  readonly changeReason: string | null
}

/** A project's specification: a copy of built-in guideline values with the contract's changes. */
export type Specification = {
  readonly builtInKey: string
  readonly name: string
  readonly source: string
  readonly aggregateType: string
  readonly traffic: Traffic
  readonly decisionRule: 'simple acceptance'
  readonly residualBand: ResidualBand
  /** The panel, in the order in which it is shown: one limit a property. */
  readonly limits: readonly Limit[]
}

/** Guideline values as shipped; a limit with a traffic class is held for that class alone. */
export type BuiltInSpecification = {
  readonly key: string
  readonly name: string
  readonly source: string
  readonly traffics: readonly Traffic[]
  readonly residualBands: Readonly<Record<string, ResidualBand>>
  readonly limits: readonly Limit[]
}

/** How results are compared with a limit, as it is printed in a report. */
export function comparisonWords(rounding: RoundingRule): string {
  const rules: Readonly<Record<RoundingRule, string>> = {
    none: 'compared unrounded (absolute method of ASTM E29)',
    'half-even': 'rounded to the last place of the limit, halves to even (rounding method of ASTM E29)',
    'half-up': 'rounded to the last place of the limit, halves up',
    up: 'rounded up to the last place of the limit',
    truncate: 'cut to the last place of the limit',
  }
  return rules[rounding]
}
