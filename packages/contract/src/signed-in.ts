import { z } from 'zod'
import { IdSchema, InstantSchema } from './common.ts'

/** A tablet or browser on which a person of this laboratory is signed in now. */
export const SignedInDeviceSchema = z.object({
  /** Its session: what is cut off. */
  id: IdSchema,
  person: z.object({ membershipId: IdSchema, name: z.string(), initials: z.string() }),
  /** The one on which this was asked. */
  current: z.boolean(),
  /** What the browser says of itself. */
  agent: z.string().nullable(),
  address: z.string().nullable(),
  startedAt: InstantSchema,
  lastSeenAt: InstantSchema,
  /** Others of this laboratory who may take it over by their PIN. */
  byPin: z.array(z.string()),
})
export type SignedInDevice = z.infer<typeof SignedInDeviceSchema>

export const CutOffSchema = z.strictObject({
  reason: z.string().trim().min(3, 'Say why, in a few words').max(500),
})
export type CutOff = z.infer<typeof CutOffSchema>
