import { z } from 'zod'
import { DigitsSchema, GivenDigitsSchema, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'

const RangeOfSchema = z.strictObject({ from: GivenDigitsSchema, to: GivenDigitsSchema })

/** The engineer's: what the product never computes. Contents in % of dry aggregate. */
export const RecommendationSchema = z.object({
  id: IdSchema,
  emulsionPercent: DigitsSchema,
  residualPercent: DigitsSchema,
  toleranceResidualPercent: DigitsSchema,
  water: RangeOfSchema,
  filler: RangeOfSchema,
  additive: RangeOfSchema,
  reason: z.string(),
  by: PersonNameSchema,
  at: InstantSchema,
})
export type Recommendation = z.infer<typeof RecommendationSchema>

export const RecommendSchema = z.strictObject({
  id: IdSchema,
  emulsionPercent: GivenDigitsSchema,
  toleranceResidualPercent: GivenDigitsSchema,
  water: RangeOfSchema,
  filler: RangeOfSchema,
  additive: RangeOfSchema,
  reason: z.string().trim().min(1, 'Give the reason for this content').max(4000),
  supersedes: z.strictObject({ id: IdSchema, reason: z.string().trim().min(1).max(500) }).optional(),
})
export type Recommend = z.infer<typeof RecommendSchema>
