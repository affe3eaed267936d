import { z } from 'zod'
import { IdSchema, InstantSchema } from './common.ts'

const NamedSchema = z.object({ testId: IdSchema, code: z.string(), label: z.string() })

export const PutInQuerySchema = z.strictObject({ designId: IdSchema, methodKey: z.string().max(100) })

/** What a put-in list is made from: who lies in the bath, who still waits, and the bounds of the method’s edition. */
export const PutInSchema = z.object({
  /** The laboratory’s clock as it was read. */
  now: InstantSchema,
  designId: IdSchema,
  designName: z.string(),
  methodKey: z.string(),
  methodName: z.string(),
  /** In minutes after the put-in. Where editions of the tests differ, the narrowest bounds of all; null where no test is open. */
  soak: z.object({ earliestMinutes: z.number(), latestMinutes: z.number(), edition: z.string() }).nullable(),
  /** Days on which somebody must be there, counted from the day of the put-in, which is the first. */
  later: z.array(z.object({ offset: z.number().int(), step: z.string(), title: z.string() })),
  /** In the order in which they were cast. */
  waiting: z.array(
    NamedSchema.extend({
      /** A spare that stands in nobody’s place. */
      spare: z.boolean(),
      /** Putting it in is its next act. */
      ready: z.boolean(),
    }),
  ),
  /** When the last run on the machine was started; null: none was yet. */
  lastRunAt: InstantSchema.nullable(),
  soaking: z.array(NamedSchema.extend({ mayStartAt: InstantSchema, mustStartAt: InstantSchema })),
})
export type PutIn = z.infer<typeof PutInSchema>
