import { z } from 'zod'
import { EventTimeSchema, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { partKinds } from './machine-parts.ts'

export const PartKindSchema = z.enum(partKinds, 'Choose the part')

/** A lot on a machine from a time on. */
export const PartFittingSchema = z.object({
  id: IdSchema,
  kind: PartKindSchema,
  lot: z.string(),
  /** As typed; null where it was not measured. */
  hardness: z.string().nullable(),
  fittedAt: InstantSchema,
  /** When the next lot took its place; null while it is on, and for one that is superseded. */
  takenOffAt: InstantSchema.nullable(),
  by: PersonNameSchema,
  note: z.string().nullable(),
  supersedes: z.object({ id: IdSchema, reason: z.string() }).nullable(),
  /** Entered in error: another entry says what was fitted. */
  superseded: z.boolean(),
})
export type PartFitting = z.infer<typeof PartFittingSchema>

/** The lots of a machine, the latest first. */
export const PartFittingsSchema = z.object({ items: z.array(PartFittingSchema), next: z.null() })
export type PartFittings = z.infer<typeof PartFittingsSchema>

export const FitPartSchema = z.strictObject({
  id: IdSchema,
  kind: PartKindSchema,
  lot: z.string().trim().min(1, 'Give the lot as marked on it').max(60),
  hardness: z.string().trim().max(40).nullable().default(null),
  time: EventTimeSchema,
  /** With the reason where an entry was wrong: the first one stays, struck through. */
  supersedes: z
    .strictObject({ id: IdSchema, reason: z.string().trim().min(1, 'Give the reason of the correction').max(500) })
    .optional(),
})
export type FitPart = z.infer<typeof FitPartSchema>

/** A lot as named beside a run. */
export const RunPartSchema = z.object({ kind: PartKindSchema, lot: z.string(), fittedAt: InstantSchema })
export type RunPart = z.infer<typeof RunPartSchema>
