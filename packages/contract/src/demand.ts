import { z } from 'zod'
import { DigitsSchema, IdSchema } from './common.ts'

/** One component: what the series and the other tests take, and whether what arrived suffices. Grams throughout. */
export const DemandRowSchema = z.object({
  component: z.enum(['aggregate', 'emulsion', 'filler', 'additive', 'water']),
  sample: z.object({ id: IdSchema, code: z.string(), name: z.string() }).nullable(),
  seriesG: DigitsSchema,
  otherG: DigitsSchema,
  neededG: DigitsSchema,
  arrivedG: DigitsSchema.nullable(),
  /** Counted from litres, at the usual density of liquids. */
  byVolume: z.boolean(),
  shortG: DigitsSchema.nullable(),
})
export type DemandRow = z.infer<typeof DemandRowSchema>

/** What a series takes of each material against what arrived. */
export const DemandCheckSchema = z.object({
  specimens: z.number().int(),
  rows: z.array(DemandRowSchema),
  /** What the other tests take, and the density of liquids, with where both come from. */
  assumed: z.array(z.string()),
  /** What cannot be computed and why; then there are no rows. */
  refusal: z.string().nullable(),
})
export type DemandCheck = z.infer<typeof DemandCheckSchema>
