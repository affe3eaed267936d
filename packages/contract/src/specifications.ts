import { z } from 'zod'
import { DigitsSchema, IdSchema, InstantSchema } from './common.ts'

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
  source: z.string(),
  certainty: z.enum(['published', 'common practice', 'from memory']),
  /** Set where the contract changed the built-in value. */
  changedFrom: z.object({ value: DigitsSchema.nullable(), unit: z.string() }).nullable(),
})
export type Limit = z.infer<typeof LimitSchema>

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
  residualBand: z.object({
    from: DigitsSchema.nullable(),
    to: DigitsSchema.nullable(),
    unit: z.string(),
    source: z.string(),
    certainty: z.string(),
  }),
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
      residualBand: z.object({
        from: DigitsSchema.nullable(),
        to: DigitsSchema.nullable(),
        unit: z.string(),
        source: z.string(),
        certainty: z.string(),
      }),
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
      value: DigitsSchema,
      reason: z.string().trim().min(1, 'Say where the contract asks for it').max(500),
    }),
  ),
  residualBand: z
    .strictObject({ from: DigitsSchema.nullable(), to: DigitsSchema.nullable(), reason: z.string().trim().max(500) })
    .optional(),
})
export type AdoptSpecification = z.infer<typeof AdoptSpecificationSchema>
