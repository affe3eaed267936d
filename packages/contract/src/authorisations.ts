import { z } from 'zod'
import { DaySchema, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'

/** What one may be authorised for: `method:<key>`, `check`, `release`, `approve`. */
export const ActivitySchema = z.string().regex(/^(method:[a-z0-9-]+|check|release|approve)$/, 'Choose an activity')

/** Who may do what, from when until when, on what evidence. A correction takes the place of the one it names. */
export const AuthorisationSchema = z.object({
  id: IdSchema,
  person: PersonNameSchema,
  activity: ActivitySchema,
  activityLabel: z.string(),
  fromDay: DaySchema,
  /** The last day; null = open. */
  untilDay: DaySchema.nullable(),
  evidence: z.string(),
  /** `ending`: it ends within 30 days. */
  state: z.enum(['later', 'current', 'ending', 'ended']),
  by: PersonNameSchema,
  at: InstantSchema,
  /** Why it took the place of an earlier one. */
  reason: z.string().nullable(),
})
export type Authorisation = z.infer<typeof AuthorisationSchema>

/** The standing authorisations, and for each activity whether it binds: from its first authorisation on it does. */
export const AuthorisationsSchema = z.object({
  items: z.array(AuthorisationSchema),
  activities: z.array(z.object({ activity: ActivitySchema, label: z.string(), binds: z.boolean() })),
})
export type Authorisations = z.infer<typeof AuthorisationsSchema>

const span = {
  fromDay: DaySchema,
  untilDay: DaySchema.nullable().default(null),
  evidence: z.string().trim().min(1, 'Name the evidence, like “observed on 3 discs, 2 March”').max(1000),
}

export const GrantSchema = z.strictObject({ id: IdSchema, membershipId: IdSchema, activity: ActivitySchema, ...span })
export type Grant = z.infer<typeof GrantSchema>

/** Ends or corrects an authorisation; the earlier one stays on record. */
export const CorrectAuthorisationSchema = z.strictObject({
  id: IdSchema,
  ...span,
  reason: z.string().trim().min(1, 'Give the reason of the change').max(500),
})
export type CorrectAuthorisation = z.infer<typeof CorrectAuthorisationSchema>
