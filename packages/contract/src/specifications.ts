import { z } from 'zod'
import { DigitsSchema, IdSchema, InstantSchema } from './common.ts'

/** How a result is cut before it is compared: `none` compares it unrounded. */
export const ComparisonRuleSchema = z.enum(['none', 'half-even', 'half-up', 'up', 'truncate'])

/** What a result must meet. Mirrors the limit of `@curebook/trade/specification`. */
export const LimitSchema = z.object({
  key: z.string(),
  property: z.string(),
  label: z.string(),
  soak: z.string().nullable(),
  traffic: z.string().nullable(),
  sense: z.enum(['max', 'min']),
  /** Null: the property is asked for, but no limit is held. */
  value: DigitsSchema.nullable(),
  unit: z.string(),
  /** The same limit as printed in US units, shown beside. */
  usValue: DigitsSchema.nullable(),
  usUnit: z.string().nullable(),
  /** Condition under which it holds: "at 25 °C". */
  condition: z.string().nullable(),
  rounding: ComparisonRuleSchema,
  source: z.string(),
  certainty: z.enum(['published', 'common practice', 'from memory']),
  /** The same limit, or an agency's own, as read in a published document. */
  alsoPublished: z.array(z.object({ source: z.string(), value: DigitsSchema, unit: z.string() })),
  /** Set where the contract changed the built-in value. */
  changedFrom: z.object({ value: DigitsSchema.nullable(), unit: z.string(), source: z.string() }).nullable(),
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

export const SpecificationSchema = z.object({
  id: IdSchema,
  key: z.string(),
  revision: z.number().int(),
  name: z.string(),
  source: z.string(),
  decisionRule: z.string(),
  comparison: z.string(),
  aggregateType: z.string(),
  traffic: z.enum(['heavy', 'medium', 'light']),
  residualBand: ResidualBandSchema,
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
  traffics: z.array(z.enum(['heavy', 'medium', 'light'])),
  /** Limits by aggregate type and traffic class, as they would be adopted unchanged. */
  variants: z.array(
    z.object({
      aggregateType: z.string(),
      traffic: z.enum(['heavy', 'medium', 'light']),
      residualBand: ResidualBandSchema,
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
  traffic: z.enum(['heavy', 'medium', 'light']),
  changes: z.array(
    z.strictObject({
      limitKey: z.string(),
      /** Null takes the limit away; the property is still asked for. */
      value: DigitsSchema.nullable(),
      /** Only where the contract states the limit in another unit; results are then computed in that unit. */
      unit: z.string().optional(),
      reason: z.string().trim().min(1, 'Say where the contract asks for it').max(500),
    }),
  ),
  residualBand: z
    .strictObject({
      from: DigitsSchema.nullable(),
      to: DigitsSchema.nullable(),
      reason: z.string().trim().min(1, 'Say where the contract asks for it').max(500),
    })
    .optional(),
  /** How results are cut before they are compared; unrounded without. */
  rounding: ComparisonRuleSchema.optional(),
})
export type AdoptSpecification = z.infer<typeof AdoptSpecificationSchema>
