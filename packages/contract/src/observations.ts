import { z } from 'zod'
import { EventTimeSchema, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { observationWords, type ObservationChoice } from './observation-words.ts'

export const ObservationChoiceSchema = z.enum(
  Object.keys(observationWords) as [ObservationChoice, ...ObservationChoice[]],
  'Choose what was seen',
)

/** Something seen at a step of a test, with a photograph where there is one. */
export const ObservationSchema = z.object({
  id: IdSchema,
  testId: IdSchema,
  stepKey: z.string(),
  choice: ObservationChoiceSchema,
  note: z.string().nullable(),
  attachment: z.object({ id: IdSchema, name: z.string(), mediaType: z.string(), sha256: z.string() }).nullable(),
  eventAt: InstantSchema,
  receivedAt: InstantSchema,
  by: PersonNameSchema,
  supersedes: z.object({ id: IdSchema, reason: z.string() }).nullable(),
  /** Entered in error: another says what was seen. */
  superseded: z.boolean(),
})
export type Observation = z.infer<typeof ObservationSchema>

/** What was seen on the specimens of a design and on their batches, as it stands; each beside the specimen it is of. */
export const DesignObservationsSchema = z.object({
  items: z.array(ObservationSchema.extend({ specimenTestId: IdSchema })),
  next: z.null(),
})
export type DesignObservations = z.infer<typeof DesignObservationsSchema>

export const PostObservationSchema = z
  .strictObject({
    id: IdSchema,
    stepKey: z.string(),
    choice: ObservationChoiceSchema,
    note: z.string().trim().max(1000).nullable().default(null),
    /** A file sent before, under its own id. */
    attachmentId: IdSchema.nullable().default(null),
    time: EventTimeSchema,
    /** With the reason where an entry of the same step was wrong. */
    supersedes: z
      .strictObject({ id: IdSchema, reason: z.string().trim().min(1, 'Give the reason of the correction').max(500) })
      .optional(),
  })
  .refine(({ choice, note }) => choice !== 'other' || Boolean(note), {
    path: ['note'],
    message: 'Say in words what was seen',
  })
export type PostObservation = z.infer<typeof PostObservationSchema>
