import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { CodeSquareSchema } from './session.ts'

/** What stands on the label of a container, and when labels of it were printed. */
export const LabelSchema = z.object({
  itemId: IdSchema,
  code: z.string(),
  /** The code, for a camera: scanned into any field, it is as if typed. */
  square: CodeSquareSchema,
  /** Whose it is: a label that left the building still says so. */
  laboratory: z.string(),
  /** What it is, where it is from, its lot, when it came; what is not known is left out. */
  lines: z.array(z.string()),
  /** The first print, then every print again. */
  prints: z.array(z.object({ at: InstantSchema, by: PersonNameSchema, count: z.number().int() })),
})
export type Label = z.infer<typeof LabelSchema>

/** Says that so many were sent to the printer. Needs an Idempotency-Key. */
export const PrintLabelsSchema = z.strictObject({
  count: z.int('Count the labels in whole numbers').min(1, 'Print at least one').max(200, 'Print at most 200 at once'),
})
export type PrintLabels = z.infer<typeof PrintLabelsSchema>
