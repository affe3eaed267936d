import { z } from 'zod'
import { DaySchema, IdSchema, InstantSchema } from './common.ts'

/** The day on which a report is expected, as its client is told. */
export const ExpectedDaySchema = z.object({
  id: IdSchema,
  day: DaySchema,
  /** The day told before, and why it changed; both null at first. */
  from: DaySchema.nullable(),
  reason: z.string().nullable(),
  at: InstantSchema,
})
export type ExpectedDay = z.infer<typeof ExpectedDaySchema>

/** All that was told for a project, the newest first. */
export const ExpectedDaysSchema = z.object({ items: z.array(ExpectedDaySchema) })
export type ExpectedDays = z.infer<typeof ExpectedDaysSchema>

export const SetExpectedDaySchema = z.strictObject({
  id: IdSchema,
  day: DaySchema,
  /** The one that stood when this was decided; null when none did. */
  after: IdSchema.nullable(),
  /** Why the day changes, as the client reads it. */
  reason: z.string().trim().max(500).optional(),
})
export type SetExpectedDay = z.infer<typeof SetExpectedDaySchema>
