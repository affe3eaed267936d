import { z } from 'zod'
import { IdSchema, PersonNameSchema } from './common.ts'

/** One specimen in the order of casting. */
export const CastingRowSchema = z.object({
  /** From 1 within design and test. */
  ordinal: z.number().int(),
  /** The replicate that the block casts of every content; null for spares, which come last. */
  block: z.number().int().nullable(),
  testId: IdSchema,
  batchTestId: IdSchema,
  code: z.string(),
  label: z.string(),
  spare: z.boolean(),
  state: z.enum(['waiting', 'cast', 'void']),
  assignee: PersonNameSchema.nullable(),
})
export type CastingRow = z.infer<typeof CastingRowSchema>

/** In which order a design's specimens are cast, test by test. The order is in blocks, so that a day’s drift is no effect of the binder. */
export const CastingPlanSchema = z.object({
  designId: IdSchema,
  designName: z.string(),
  series: z.array(z.object({ methodKey: z.string(), methodName: z.string(), rows: z.array(CastingRowSchema) })),
})
export type CastingPlan = z.infer<typeof CastingPlanSchema>
