import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { ScheduleRowSchema } from './schedule.ts'
import { CodeSquareSchema } from './session.ts'

/** A test that is begun or due, as whoever takes it on sees it. */
export const HandedTestSchema = ScheduleRowSchema.pick({
  testId: true,
  code: true,
  label: true,
  designName: true,
  methodName: true,
  stepTitle: true,
  opensAt: true,
  closesAt: true,
  urgency: true,
  started: true,
}).extend({
  /** The oven or bath that it stands in with its load; null where in none. */
  standsIn: z.string().nullable(),
})
export type HandedTest = z.infer<typeof HandedTestSchema>

export const OfferHandOverSchema = z.strictObject({ id: IdSchema })
export type OfferHandOver = z.infer<typeof OfferHandOverSchema>

/** What is offered, and its code: shown in this answer alone, null when the same request came again. */
export const OfferedHandOverSchema = z.object({
  id: IdSchema,
  code: z.string().nullable(),
  square: CodeSquareSchema.nullable(),
  expiresAt: InstantSchema,
  tests: z.array(HandedTestSchema),
})
export type OfferedHandOver = z.infer<typeof OfferedHandOverSchema>

const TypedCodeSchema = z.string().trim().min(1, 'Enter the code').max(40)
export const LookUpHandOverSchema = z.strictObject({ code: TypedCodeSchema })

/** What somebody gets who takes it: nothing is changed by looking. */
export const HandOverSchema = z.object({
  from: PersonNameSchema,
  expiresAt: InstantSchema,
  tests: z.array(HandedTestSchema),
  /** For what they are not authorised, each sentence with its tests: these stay unless they are taken all the same. */
  notAuthorised: z.array(z.object({ sentence: z.string(), testIds: z.array(IdSchema) })),
})
export type HandOver = z.infer<typeof HandOverSchema>

/** Takes these tests, out of those that were seen. Needs an Idempotency-Key. */
export const TakeHandOverSchema = z.strictObject({
  code: TypedCodeSchema,
  testIds: z.array(IdSchema).min(1, 'Choose at least one test').max(500),
})
export type TakeHandOver = z.infer<typeof TakeHandOverSchema>
