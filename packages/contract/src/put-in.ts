import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { BreakSchema } from './laboratory.ts'

const NamedSchema = z.object({ testId: IdSchema, code: z.string(), label: z.string() })
const InstrumentNameSchema = z.object({ id: IdSchema, code: z.string(), name: z.string() })

export const PutInQuerySchema = z.strictObject({ designId: IdSchema, methodKey: z.string().max(100) })

/** A list as it was settled; a later one supersedes it. */
export const SettledPutInSchema = z.object({
  id: IdSchema,
  by: PersonNameSchema,
  at: InstantSchema,
  /** Why it took the place of the one before; null for the first. */
  reason: z.string().nullable(),
  /** The machine it is for; null where none was named. */
  instrument: InstrumentNameSchema.nullable(),
  runMinutes: z.number().int(),
  rows: z.array(
    NamedSchema.extend({
      /** Null: it lay in the bath already. */
      putInAt: InstantSchema.nullable(),
      startAt: InstantSchema,
      mustStartAt: InstantSchema,
    }),
  ),
})
export type SettledPutIn = z.infer<typeof SettledPutInSchema>

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
  /** Times of day when nobody is at the machine. */
  breaks: z.array(BreakSchema),
  /** Machines in service that can run it. */
  machines: z.array(InstrumentNameSchema),
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
  /** What soaks for a machine of the same kind, of other designs and methods. */
  elsewhere: z.array(
    NamedSchema.extend({
      designName: z.string(),
      methodName: z.string(),
      mayStartAt: InstantSchema,
      mustStartAt: InstantSchema,
      /** As its own list was settled; both null where there is none. */
      settledStartAt: InstantSchema.nullable(),
      instrumentId: IdSchema.nullable(),
    }),
  ),
  /** Runs of other designs and methods started within the last hours, and on which machine. */
  running: z.array(z.object({ startedAt: InstantSchema, instrumentId: IdSchema.nullable() })),
  settled: SettledPutInSchema.nullable(),
})
export type PutIn = z.infer<typeof PutInSchema>

/** Settles a list. It names the one that it was made against, so that of two at once one stands and the other is told. */
export const SettlePutInSchema = z.strictObject({
  id: IdSchema,
  designId: IdSchema,
  methodKey: z.string().max(100),
  instrumentId: IdSchema.nullable(),
  runMinutes: z.number().int().min(1).max(240),
  rows: z
    .array(z.strictObject({ testId: IdSchema, putInAt: InstantSchema.nullable(), startAt: InstantSchema }))
    .min(1)
    .max(200),
  supersedes: z.strictObject({ id: IdSchema, reason: z.string().trim().max(500).optional() }).nullable(),
})
export type SettlePutIn = z.infer<typeof SettlePutInSchema>
