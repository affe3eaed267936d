import type { Certainty as PublishedCertainty } from '../procedure/declaration.ts'
import type { RoundingRule } from '../quantity/rounding.ts'

/** What a contract changed holds by that contract: it is no published value, and no guess. */
export type Certainty = PublishedCertainty | 'by contract'

export type Traffic = 'heavy' | 'medium' | 'light'

/**
 * How a result is held against a limit:
 * - `max`, `min`: at most, at least the value
 * - `between`: from the value to `upper`, both ends included
 * - `declared`: the value is declared by whoever answers for the mix, and nothing is passed or failed
 */
export type Sense = 'max' | 'min' | 'between' | 'declared'

/**
 * How uncertainty enters a statement of conformity (ILAC-G8:09/2019, read in extracts):
 * - `simple acceptance`: the limit itself decides; up to half of the results on it are wrongly accepted
 * - `guard band`: accepted as far as U inside the limit, so that less than 2.5 % are wrongly accepted
 * - `non-binary`: pass and fail beyond U from the limit, within U on either side a conditional pass or fail
 */
export type DecisionRule = 'simple acceptance' | 'guard band' | 'non-binary'

/** What is known of the uncertainty of a result that a limit is compared with. */
export type LimitUncertainty = {
  /** Expanded uncertainty U, in the limit's unit. */
  readonly expanded: string
  /** Coverage factor k by which it was expanded. */
  readonly coverageFactor: string
  /** Where it comes from: the laboratory's own budget or repeatability record. */
  readonly source: string
}

/** What a limit is about: the mix, or a material that is tested before it. */
export type LimitGroup = 'mix' | 'aggregate' | 'emulsion'

/** What one property must meet. Digits are strings, so that a specification is the same text wherever it is kept. */
export type Limit = {
  readonly key: string
  readonly property: string
  /** In words: "Abrasion loss, 1-hour soak". */
  readonly label: string
  readonly soak: string | null
  /** Traffic class for which it is held; null for all. */
  readonly traffic: Traffic | null
  readonly sense: Sense
  /** Null: the property is asked for, and no limit is held. The lower end where the sense is `between`. */
  readonly value: string | null
  /** The upper end where the sense is `between`; absent else, and in copies made before there was such a sense. */
  readonly upper?: string | null
  /** Unit of the limit, of the results compared with it, and of the curve of record. */
  readonly unit: string
  /** The pair printed in US units, shown beside and never compared. */
  readonly usValue: string | null
  readonly usUnit: string | null
  /** How a result is cut before it is compared: `none` is the absolute method, any other the rounding method (ASTM E29). */
  readonly rounding: RoundingRule
  readonly decisionRule: DecisionRule
  /** Needed by every decision rule but simple acceptance. */
  readonly uncertainty?: LimitUncertainty | null
  readonly source: string
  /** Clause or table of the source, where it was read. */
  readonly clause?: string | null
  /** Designation of the test that it asks for: "AASHTO T 176". */
  readonly method?: string | null
  /** Absent: the mix. */
  readonly group?: LimitGroup
  readonly certainty: Certainty
  /** The same limit, or an agency's own, as read in a published document. */
  readonly alsoPublished: readonly { readonly source: string; readonly value: string; readonly unit: string }[]
  /** Condition under which it holds: "at 25 °C", "quick-traffic systems". */
  readonly condition: string | null
  /** The built-in limit that the contract changed, and where the contract asks for it. */
  readonly changedFrom: {
    readonly value: string | null
    readonly upper?: string | null
    readonly unit: string
    readonly source: string
  } | null
  readonly changeReason: string | null
}

/** What must pass one sieve, % by mass of the dry aggregate. */
export type BandSieve = {
  /** Opening in mm. */
  readonly size: string
  /** As the source names it: "No. 4, 4.75 mm". */
  readonly label: string
  readonly from: string
  readonly to: string
  /** How far a stockpile may lie from the target gradation of the design, ± % passing; null where none is held. */
  readonly tolerance: string | null
}

/** The gradation allowed for one aggregate type, the widest sieve first. */
export type GradationBand = {
  readonly sieves: readonly BandSieve[]
  readonly source: string
  readonly clause?: string | null
  readonly certainty: Certainty
}

/** What a source says beside its limits, in words: rates of application, filler. It is read, and nothing is judged by it. */
export type Information = {
  readonly label: string
  readonly words: string
  readonly source: string
  readonly certainty: Certainty
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

/** A laboratory's specification: a copy of built-in values with the contract's changes, or written by the laboratory itself. */
export type Specification = {
  /** Of what it is a copy; `own` where the laboratory wrote it. */
  readonly builtInKey: string
  readonly name: string
  readonly source: string
  readonly aggregateType: string
  readonly traffic: Traffic
  /** How limits decide where they do not say otherwise themselves. */
  readonly decisionRule: DecisionRule
  readonly residualBand: ResidualBand
  /** Absent in copies made before bands were held; null where the source holds none. */
  readonly gradationBand?: GradationBand | null
  readonly information?: readonly Information[]
  /** The panel, in the order in which it is shown: one limit a property. */
  readonly limits: readonly Limit[]
}

/** A limit as shipped; with `types` it is held for those aggregate types alone. */
export type BuiltInLimit = Limit & { readonly types?: readonly string[] }

/** Values as shipped; a limit with a traffic class is held for that class alone. */
export type BuiltInSpecification = {
  readonly key: string
  readonly name: string
  readonly source: string
  readonly traffics: readonly Traffic[]
  /** By aggregate type: every type that can be adopted has one, though it may hold no number. */
  readonly residualBands: Readonly<Record<string, ResidualBand>>
  readonly gradationBands?: Readonly<Record<string, GradationBand>>
  readonly limits: readonly BuiltInLimit[]
  readonly information?: readonly (Information & { readonly types?: readonly string[] })[]
}

/** Whose last place a result is rounded to: that of what it is compared with. */
const roundedTo: Readonly<Record<DecisionRule, string>> = {
  'simple acceptance': 'the limit',
  'guard band': 'the acceptance limit',
  'non-binary': 'the limit or of U, the finer of the two',
}

/** How results are compared with a limit, as it is printed in a report. */
export function comparisonWords(rounding: RoundingRule, decisionRule: DecisionRule = 'simple acceptance'): string {
  const place = `to the last place of ${roundedTo[decisionRule]}`
  const rules: Readonly<Record<RoundingRule, string>> = {
    none: 'compared unrounded (absolute method of ASTM E29)',
    'half-even': `rounded ${place}, halves to even (rounding method of ASTM E29)`,
    'half-up': `rounded ${place}, halves up`,
    up: `rounded up ${place}`,
    truncate: `cut ${place}`,
  }
  return rules[rounding]
}
