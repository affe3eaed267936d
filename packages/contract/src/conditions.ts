import { z } from 'zod'
import { EventTimeSchema, IdSchema, InstantSchema, PersonNameSchema, TypedSchema } from './common.ts'

/** A value of an oven's or bath's log. */
export const ConditionValueSchema = z.object({
  id: IdSchema,
  at: InstantSchema,
  typed: z.string(),
  unit: z.string(),
  /** Who entered it; null when it was posted with the instrument's key. */
  by: PersonNameSchema.nullable(),
  /** The word why it was entered late; null where there is none. */
  note: z.string().nullable(),
  /** Outside of what stood inside then asked for; null when nothing did. */
  outside: z.boolean().nullable(),
  /** The value in whose place it stands, who entered that, and why it was put right. */
  corrects: z.object({ typed: z.string(), name: z.string(), reason: z.string() }).nullable(),
})
export type ConditionValue = z.infer<typeof ConditionValueSchema>

export const PostConditionsSchema = z
  .strictObject({
    values: z
      .array(
        z.strictObject({
          id: IdSchema,
          /** When it was so, by the laboratory's clock; left out where `time` tells it. */
          at: InstantSchema.optional(),
          /** Digits as text, like "25.1", so that none is lost. */
          value: TypedSchema,
          unit: z.literal('°C').default('°C'),
        }),
      )
      .min(1, 'Send at least one value')
      .max(1000),
    /** Of one value: when it was read, by the clock of the device on which it was told and may have waited. */
    time: EventTimeSchema.optional(),
  })
  .refine(({ values, time }) => time !== undefined || values.every(({ at }) => at !== undefined), {
    path: ['values', 0, 'at'],
    message: 'Give the time at which each value was read',
  })
  .refine(({ values, time }) => time === undefined || (values.length === 1 && values[0]?.at === undefined), {
    path: ['time'],
    message: 'This time tells of one value, which then has no other',
  })
/** As it is sent: the unit may be left out. */
export type PostConditions = z.input<typeof PostConditionsSchema>

/** Puts a mistyped value right: its time stays, and the first stays on record. */
export const CorrectConditionSchema = z.strictObject({
  id: IdSchema,
  value: TypedSchema,
  reason: z.string().trim().min(1, 'Give the reason of the correction').max(500),
})
export type CorrectCondition = z.infer<typeof CorrectConditionSchema>

/** `stored` are new, `known` stood already. */
export const PostedConditionsSchema = z.object({
  stored: z.number().int(),
  known: z.number().int(),
  /** Deviations opened or grown by these values. */
  deviationIds: z.array(IdSchema),
})
export type PostedConditions = z.infer<typeof PostedConditionsSchema>

/** The last days of a log, with what it does not say. */
export const ConditionLogSchema = z.object({
  now: InstantSchema,
  from: InstantSchema,
  /** What stands inside asks for now: "25 ± 1 °C"; null when nothing stands there. */
  held: z.array(z.string()),
  values: z.array(ConditionValueSchema),
  gaps: z.array(z.object({ from: InstantSchema, until: InstantSchema })),
  deviations: z.array(z.object({ id: IdSchema, text: z.string(), decided: z.boolean() })),
  /** Since when a logger may post with a key, and who made it; null when none may. */
  key: z.object({ at: InstantSchema, by: PersonNameSchema }).nullable(),
})
export type ConditionLog = z.infer<typeof ConditionLogSchema>

/** Makes a key, which ends the one before; or with `end` only ends it. */
export const MakeKeySchema = z.strictObject({ id: IdSchema, end: z.boolean().default(false) })
export type MakeKey = z.infer<typeof MakeKeySchema>

/** The one answer that shows the key: afterwards only its hash is kept. Null when it was ended, or the same request came again. */
export const MadeKeySchema = z.object({ id: IdSchema, key: z.string().nullable() })
export type MadeKey = z.infer<typeof MadeKeySchema>
