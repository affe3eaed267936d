import { z } from 'zod'
import { DigitsSchema, GivenDigitsSchema, digitsLike, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'

/** How a result is cut before it is compared: `none` compares it unrounded. */
export const ComparisonRuleSchema = z.enum(['none', 'half-even', 'half-up', 'up', 'truncate'])

export const SenseSchema = z.enum(['max', 'min', 'between', 'declared'])
export const DecisionRuleSchema = z.enum(['simple acceptance', 'guard band', 'non-binary'])
export const LimitCertaintySchema = z.enum(['published', 'common practice', 'from memory', 'by contract'])
export const LimitGroupSchema = z.enum(['mix', 'aggregate', 'emulsion'])
export const TrafficSchema = z.enum(['heavy', 'medium', 'light'])

/** What a result must meet. Mirrors the limit of `@curebook/trade/specification`. */
export const LimitSchema = z.object({
  key: z.string(),
  property: z.string(),
  label: z.string(),
  soak: z.string().nullable(),
  traffic: z.string().nullable(),
  /** `declared`: the value is declared, and nothing is passed or failed. */
  sense: SenseSchema,
  /** Null: the property is asked for, but no limit is held. The lower end of a limit `between` two. */
  value: DigitsSchema.nullable(),
  /** The upper end of a limit `between` two; null else. */
  upper: DigitsSchema.nullable(),
  unit: z.string(),
  /** The same limit as printed in US units, shown beside. */
  usValue: DigitsSchema.nullable(),
  usUnit: z.string().nullable(),
  /** Condition under which it holds: "at 25 °C". */
  condition: z.string().nullable(),
  rounding: ComparisonRuleSchema,
  decisionRule: DecisionRuleSchema,
  /** Expanded uncertainty U with the factor k it was expanded by, where the rule takes one. */
  uncertainty: z.object({ expanded: DigitsSchema, coverageFactor: DigitsSchema, source: z.string() }).nullable(),
  /** How a result is compared and decided, in words. */
  comparison: z.string(),
  source: z.string(),
  /** Clause or table of the source. */
  clause: z.string().nullable(),
  /** Designation of the test asked for. */
  method: z.string().nullable(),
  group: LimitGroupSchema,
  certainty: LimitCertaintySchema,
  /** The same limit, or an agency's own, as read in a published document. */
  alsoPublished: z.array(z.object({ source: z.string(), value: DigitsSchema, unit: z.string() })),
  /** Set where the contract changed the built-in value. */
  changedFrom: z
    .object({
      value: DigitsSchema.nullable(),
      upper: DigitsSchema.nullable(),
      unit: z.string(),
      source: z.string(),
    })
    .nullable(),
  changeReason: z.string().nullable(),
})
export type Limit = z.infer<typeof LimitSchema>

/** Residual binder allowed. */
export const ResidualBandSchema = z.object({
  from: DigitsSchema.nullable(),
  to: DigitsSchema.nullable(),
  unit: z.string(),
  source: z.string(),
  certainty: z.string(),
  /** Set where the contract changed the built-in band. */
  changedFrom: z.object({ from: DigitsSchema.nullable(), to: DigitsSchema.nullable(), source: z.string() }).nullable(),
})

/** What must pass each sieve, % by mass, the widest first. */
export const GradationBandSchema = z.object({
  sieves: z.array(
    z.object({
      /** Opening in mm. */
      size: DigitsSchema,
      label: z.string(),
      from: DigitsSchema,
      to: DigitsSchema,
      /** How far a stockpile may lie from the target, ± % passing. */
      tolerance: DigitsSchema.nullable(),
    }),
  ),
  source: z.string(),
  clause: z.string().nullable(),
  certainty: LimitCertaintySchema,
})
export type GradationBand = z.infer<typeof GradationBandSchema>

/** What a source says beside its limits; nothing is judged by it. */
export const InformationSchema = z.object({
  label: z.string(),
  words: z.string(),
  source: z.string(),
  certainty: LimitCertaintySchema,
})

/** `current` may be chosen for a design; a design that pins another one keeps it. */
export const StandingSchema = z.enum(['current', 'superseded', 'withdrawn'])

/** One version of a specification by name. */
export const NamedVersionSchema = z.object({ id: IdSchema, name: z.string(), version: z.number().int() })
export type NamedVersion = z.infer<typeof NamedVersionSchema>

/** Those of every project; with a project, that contract's own copies too. */
export const SpecificationsQuerySchema = z.strictObject({ projectId: IdSchema.optional() })
export type SpecificationsQuery = z.infer<typeof SpecificationsQuerySchema>

export const SpecificationSchema = z.object({
  id: IdSchema,
  /** Of what it is a copy; `own` where the laboratory wrote it. */
  key: z.string(),
  revision: z.number().int(),
  /** Id of the first version of its line: what stays while versions follow each other. */
  lineId: IdSchema,
  /** Counted within its line, from 1. */
  version: z.number().int(),
  standing: StandingSchema,
  /** The contract whose copy it is: only its designs may choose it. Null for every project. */
  project: z.object({ id: IdSchema, name: z.string() }).nullable(),
  /** Why this version took the place of the one before; null for the first. */
  reason: z.string().nullable(),
  /** Null in a copy made by no person. */
  by: PersonNameSchema.nullable(),
  name: z.string(),
  source: z.string(),
  decisionRule: z.string(),
  comparison: z.string(),
  aggregateType: z.string(),
  traffic: TrafficSchema,
  residualBand: ResidualBandSchema,
  /** Null where no gradation is held. */
  gradationBand: GradationBandSchema.nullable(),
  information: z.array(InformationSchema),
  limits: z.array(LimitSchema),
  createdAt: InstantSchema,
})
export type Specification = z.infer<typeof SpecificationSchema>

/** Built-in guideline values that a project's specification is copied from. */
export const BuiltInSpecificationSchema = z.object({
  key: z.string(),
  name: z.string(),
  source: z.string(),
  aggregateTypes: z.array(z.string()),
  traffics: z.array(TrafficSchema),
  /** Limits by aggregate type and traffic class, as they would be adopted unchanged. */
  variants: z.array(
    z.object({
      aggregateType: z.string(),
      traffic: TrafficSchema,
      residualBand: ResidualBandSchema,
      gradationBand: GradationBandSchema.nullable(),
      information: z.array(InformationSchema),
      limits: z.array(LimitSchema),
    }),
  ),
})
export type BuiltInSpecification = z.infer<typeof BuiltInSpecificationSchema>

/** A copy of the built-in guideline values with the contract's changes. */
export const AdoptSpecificationSchema = z.strictObject({
  id: IdSchema,
  builtInKey: z.string(),
  name: z.string().trim().min(1, 'Name the specification, as in the contract').max(200),
  aggregateType: z.string(),
  traffic: TrafficSchema,
  changes: z.array(
    z.strictObject({
      limitKey: z.string(),
      /** Null takes the limit away; the property is still asked for. */
      value: GivenDigitsSchema.nullable(),
      /** The upper end, where the limit has two. */
      upper: GivenDigitsSchema.nullable().optional(),
      /** Only where the contract states the limit in another unit; results are then computed in that unit. */
      unit: z.string().optional(),
      reason: z
        .string()
        .trim()
        .min(1, 'Name the contract document and its clause, like Contract 12, clause 4.2')
        .max(500),
    }),
  ),
  residualBand: z
    .strictObject({
      from: digitsLike('6.5').nullable(),
      to: digitsLike('6.5').nullable(),
      reason: z
        .string()
        .trim()
        .min(1, 'Name the contract document and its clause, like Contract 12, clause 4.2')
        .max(500),
    })
    .optional(),
  /** How results are cut before they are compared; unrounded without. */
  rounding: ComparisonRuleSchema.optional(),
  /** A copy of this contract alone; for every project without. */
  projectId: IdSchema.optional(),
})
export type AdoptSpecification = z.infer<typeof AdoptSpecificationSchema>
