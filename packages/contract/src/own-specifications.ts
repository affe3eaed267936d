import { z } from 'zod'
import { GivenDigitsSchema, digitsLike, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import {
  ComparisonRuleSchema,
  DecisionRuleSchema,
  LimitCertaintySchema,
  LimitGroupSchema,
  SenseSchema,
  SpecificationSchema,
  TrafficSchema,
} from './specifications.ts'

const short = z.string().trim().max(200)
const named = (missing: string) => short.min(1, missing)
const sourceOf = (what: string) =>
  z.string().trim().min(1, `Name the document ${what}, or say that there is none`).max(500)
const source = sourceOf('that the limit is from')
const optional = short.nullable().default(null)

/** A limit as it is written. Which numbers go together is said by the trade's rules, beside the same fields. */
export const WrittenLimitSchema = z.strictObject({
  /** Stays with the limit from version to version: results entered for it name it. */
  key: z
    .string()
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'A key is small letters and digits parted by dashes')
    .max(80),
  property: z
    .string()
    .trim()
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'Choose the property, or give a word for another one, like water-absorption')
    .max(80),
  label: named('Name what is asked for, like Mix time'),
  soak: optional,
  traffic: TrafficSchema.nullable().default(null),
  sense: SenseSchema,
  value: GivenDigitsSchema.nullable(),
  upper: GivenDigitsSchema.nullable().default(null),
  unit: named('Give the unit of the limit').max(60),
  condition: optional,
  rounding: ComparisonRuleSchema,
  decisionRule: DecisionRuleSchema,
  uncertainty: z
    .strictObject({ expanded: GivenDigitsSchema, coverageFactor: GivenDigitsSchema, source })
    .nullable()
    .default(null),
  source,
  clause: optional,
  method: optional,
  group: LimitGroupSchema.default('mix'),
  certainty: LimitCertaintySchema,
})
export type WrittenLimit = z.infer<typeof WrittenLimitSchema>

const content = {
  id: IdSchema,
  name: named('Name the specification, as in the contract'),
  source: sourceOf('that the specification is from'),
  aggregateType: named('Name the aggregate that it is for, like Type II'),
  traffic: TrafficSchema,
  residualBand: z.strictObject({
    from: digitsLike('6.5').nullable(),
    to: digitsLike('6.5').nullable(),
    source: sourceOf('of the residual binder'),
    certainty: LimitCertaintySchema,
  }),
  gradationBand: z
    .strictObject({
      sieves: z
        .array(
          z.strictObject({
            size: digitsLike('4.75'),
            label: named('Name the sieve, like No. 4'),
            from: digitsLike('90'),
            to: digitsLike('100'),
            tolerance: digitsLike('5').nullable().default(null),
          }),
        )
        .min(1, 'Give at least one sieve, or hold no gradation')
        .max(40),
      source: sourceOf('of the gradation'),
      clause: optional,
      certainty: LimitCertaintySchema,
    })
    .nullable()
    .default(null),
  limits: z.array(WrittenLimitSchema).min(1, 'Give at least one limit').max(80),
}

/** A specification of the laboratory's own. */
export const WriteSpecificationSchema = z.strictObject({
  ...content,
  /** Of this contract alone; for every project without. */
  projectId: IdSchema.optional(),
})
export type WriteSpecification = z.infer<typeof WriteSpecificationSchema>

/** The next version of a specification; the one before stays as it is, and whatever pins it keeps it. */
export const EditSpecificationSchema = z.strictObject({
  ...content,
  reason: z.string().trim().min(1, 'Say why this version takes the place of the one before').max(500),
})
export type EditSpecification = z.infer<typeof EditSpecificationSchema>

/** From then on no design may choose it; those that pin it keep it. */
export const WithdrawSpecificationSchema = z.strictObject({
  id: IdSchema,
  reason: z.string().trim().min(1, 'Say why it is withdrawn').max(500),
})
export type WithdrawSpecification = z.infer<typeof WithdrawSpecificationSchema>

export const SpecificationChangeSchema = z.object({
  what: z.string(),
  before: z.string().nullable(),
  after: z.string().nullable(),
})

/** One specification with all versions of its line, the newest first, and what each changed. */
export const SpecificationHistorySchema = z.object({
  specification: SpecificationSchema,
  versions: z.array(
    z.object({
      id: IdSchema,
      version: z.number().int(),
      name: z.string(),
      by: PersonNameSchema.nullable(),
      at: InstantSchema,
      reason: z.string().nullable(),
      /** Against the version before; empty for the first. */
      changes: z.array(SpecificationChangeSchema),
      /** How many design revisions pin this version. */
      designs: z.number().int(),
      /** How many projects stand on this version now. */
      projects: z.number().int(),
    }),
  ),
  withdrawn: z.object({ by: PersonNameSchema, at: InstantSchema, reason: z.string() }).nullable(),
})
export type SpecificationHistory = z.infer<typeof SpecificationHistorySchema>
