import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema, TextSchema } from './common.ts'

/** Readings that are kept and do not count until the deviation they wait under is released, and who may release them. */
export const WaitingSchema = z.object({
  readingIds: z.array(IdSchema),
  typed: z.array(z.string()),
  mayRelease: z.boolean(),
  sentence: z.string(),
})
export type Waiting = z.infer<typeof WaitingSchema>

/** Something that went otherwise than the method asks: recorded, decided, printed in the report. */
export const DeviationSchema = z.object({
  id: IdSchema,
  kind: z.enum(['window', 'condition', 'custody', 'calibration', 'competence', 'impossible', 'other']),
  text: z.string(),
  /** A free word that stays inside the laboratory: it is not printed, since others than its client's read what is. */
  insideWord: z.string().nullable(),
  openedAt: InstantSchema,
  openedByRule: z.boolean(),
  by: PersonNameSchema.nullable(),
  testId: IdSchema.nullable(),
  itemCode: z.string().nullable(),
  label: z.string().nullable(),
  designId: IdSchema.nullable(),
  designName: z.string().nullable(),
  decision: z
    .object({
      kind: z.enum(['accept', 'void', 'repeat', 'release', 'exclude', 'close']),
      reason: z.string(),
      /** Null where a rule closed it: nothing that it was about stands any more. */
      by: PersonNameSchema.nullable(),
      at: InstantSchema,
    })
    .nullable(),
  /** What was found later about what is decided already; the decision stands. */
  notes: z.array(z.object({ text: z.string(), at: InstantSchema })),
  /** The specimens of a deviation about a whole oven or bath, of whatever project. */
  specimens: z.array(
    z.object({
      testId: IdSchema,
      itemCode: z.string(),
      label: z.string(),
      designId: IdSchema.nullable(),
      designName: z.string().nullable(),
    }),
  ),
  /** Set while readings wait under it. */
  waiting: WaitingSchema.nullable(),
})
export type Deviation = z.infer<typeof DeviationSchema>

/**
 * Manager or engineer: accept with a reason, void the specimen, repeat it on a spare, or release the readings that wait. Those
 * of a load, which has no specimen to void, can also be left out for good.
 */
export const DecideDeviationSchema = z.strictObject({
  id: IdSchema,
  kind: z.enum(['accept', 'void', 'repeat', 'release', 'exclude']),
  reason: TextSchema,
  /** For release and exclude: the readings as they were shown; others that wait meanwhile are shown first. */
  readingIds: z.array(IdSchema).max(200).optional(),
  /** The deviation's words as they were read by whoever decides; one that has grown meanwhile is shown first. */
  shown: z.string().max(20_000).optional(),
  /** For repeat: the spare that takes the place. */
  spareTestId: IdSchema.nullable().default(null),
})
export type DecideDeviation = z.infer<typeof DecideDeviationSchema>
