import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'

/** What one act of somebody else changed for me: tests that became mine, or that are somebody else's now. */
export const NoticeSchema = z.object({
  id: IdSchema,
  kind: z.enum(['given', 'taken']),
  at: InstantSchema,
  by: PersonNameSchema,
  /** Given: who had some of them before. Taken: who has them now; nobody, where they were only taken back. */
  others: z.array(PersonNameSchema),
  /** As it was given; null where none was asked and none given. */
  reason: z.string().nullable(),
  /** A specimen with its batch stands here once. */
  tests: z.array(z.object({ testId: IdSchema, code: z.string(), label: z.string() })),
})
export type Notice = z.infer<typeof NoticeSchema>

/** What I have not said to have seen, newest first. */
export const NoticesSchema = z.object({
  /** All of them, also those beyond the list. */
  count: z.number().int(),
  items: z.array(NoticeSchema),
})
export type Notices = z.infer<typeof NoticesSchema>
