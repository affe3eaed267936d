import { z } from 'zod'
import { DigitsSchema, GivenDigitsSchema, IdSchema, InstantSchema, PersonNameSchema, TypedSchema } from './common.ts'

/** A value as typed, and as it was read. */
const TypedValueSchema = z.object({ typed: z.string(), value: DigitsSchema })

/** What can be read of a cup, and the four shares of its recipe, % of dry aggregate. */
export const cupShares = ['emulsion', 'water', 'additive', 'filler'] as const
export const cupReadings = ['temperature', 'mixTime', 'coated', 'clearWater'] as const
/** What is chosen of a cup: how it looked while stirred, and how it broke. */
export const cupLooks = ['consistency', 'broke'] as const
export const cupConsistencies = ['stiff', 'creamy', 'runny', 'segregating'] as const
export const cupBreaks = ['gradual', 'sudden', 'lumps', 'not-broken'] as const
export type CupShare = (typeof cupShares)[number]
export type CupReading = (typeof cupReadings)[number]
export type CupLook = (typeof cupLooks)[number]

/** One trial-mix cup, stirred by hand. What is not read yet is null. */
export const TrialCupSchema = z.object({
  id: IdSchema,
  number: z.number().int(),
  emulsion: TypedValueSchema,
  water: TypedValueSchema,
  additive: TypedValueSchema,
  filler: TypedValueSchema,
  /** °C */
  temperature: TypedValueSchema.nullable(),
  /** s, from emulsion to break. */
  mixTime: TypedValueSchema.nullable(),
  mixTimeFrom: z.enum(['stopwatch', 'typed']).nullable(),
  /** % of the stones. */
  coated: TypedValueSchema.nullable(),
  /** min until blotting paper draws clear water. */
  clearWater: TypedValueSchema.nullable(),
  consistency: z.enum(cupConsistencies).nullable(),
  /** `not-broken`: it had not when stirring stopped, and its mix time is longer than the one noted. */
  broke: z.enum(cupBreaks).nullable(),
  startedAt: InstantSchema.nullable(),
  remark: z.string(),
  /** Its mix time against the specification's limit; null without either. */
  meets: z.object({ verdict: z.enum(['pass', 'fail', 'undecided']), sentence: z.string() }).nullable(),
  by: PersonNameSchema,
  at: InstantSchema,
  /** What it corrects or completes, and why. */
  supersedes: z.object({ id: IdSchema, reason: z.string() }).nullable(),
})
export type TrialCup = z.infer<typeof TrialCupSchema>

/** The cup chosen last as base of the series. */
export const TrialBaseSchema = z.object({
  cupId: IdSchema,
  number: z.number().int(),
  by: PersonNameSchema,
  at: InstantSchema,
})

export const TrialCupsSchema = z.object({
  cups: z.array(TrialCupSchema),
  /** "at least 120 s, at 25 °C"; null where the specification asks for no mix time. */
  mixTimeLimit: z.object({ words: z.string(), value: DigitsSchema, unit: z.string() }).nullable(),
  base: TrialBaseSchema.nullable(),
  /** Why the shares of the planned contents stand; null while they may be set. */
  sharesStand: z.string().nullable(),
})
export type TrialCups = z.infer<typeof TrialCupsSchema>

const mayBeEmpty = z.string().trim().max(200).default('')

/** A cup as it is written down; with `supersedes` it corrects one, or completes what was not read yet. */
export const EnterTrialCupSchema = z.strictObject({
  id: IdSchema,
  emulsion: TypedSchema,
  water: TypedSchema,
  /** Empty: none was added. */
  additive: mayBeEmpty,
  filler: mayBeEmpty,
  temperature: mayBeEmpty,
  mixTime: mayBeEmpty,
  mixTimeFrom: z.enum(['stopwatch', 'typed']).default('typed'),
  coated: mayBeEmpty,
  clearWater: mayBeEmpty,
  consistency: z.enum(['', ...cupConsistencies]).default(''),
  broke: z.enum(['', ...cupBreaks]).default(''),
  startedAt: InstantSchema.nullable().default(null),
  remark: z.string().trim().max(500).default(''),
  /** The reason is asked for where something read is changed. */
  supersedes: z.strictObject({ id: IdSchema, reason: z.string().trim().max(500).default('') }).optional(),
})
export type EnterTrialCup = z.infer<typeof EnterTrialCupSchema>

/** Chooses a cup as base and gives each planned content its water, additive and filler; none while no series is planned. */
export const UseAsBaseSchema = z.strictObject({
  id: IdSchema,
  cupId: IdSchema,
  contents: z
    .array(
      z.strictObject({
        mixId: IdSchema,
        waterPercent: GivenDigitsSchema,
        additivePercent: GivenDigitsSchema,
        fillerPercent: GivenDigitsSchema,
      }),
    )
    .max(60)
    .default([]),
})
export type UseAsBase = z.infer<typeof UseAsBaseSchema>
