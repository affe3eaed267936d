import { z } from 'zod'
import { InstantSchema } from './common.ts'

/** When a person wants mail; nothing is mailed that nobody asked for. */
export const MailWishesSchema = z.strictObject({
  /** So many minutes before a window of theirs closes; null never. */
  windowMinutes: z.union([z.literal(30), z.literal(60)]).nullable(),
  /** When somebody gives them tests or takes some away. */
  notices: z.boolean(),
  /** A client: when a report of theirs is issued. */
  reports: z.boolean(),
  /** A client: when the laboratory answers a question of theirs. */
  answers: z.boolean(),
})
export type MailWishes = z.infer<typeof MailWishesSchema>

export const MailStateSchema = z.object({
  /** Written and not sent yet. */
  waiting: z.number().int(),
  /** What the last attempt said that failed, while any of these waits. */
  failure: z.object({ at: InstantSchema, error: z.string() }).nullable(),
})
export type MailState = z.infer<typeof MailStateSchema>
