import { z } from 'zod'
import { DigitsSchema } from './common.ts'
import { EnteredResultSchema, RevisionQuerySchema } from './designs.ts'
import { GradationSchema } from './gradations.ts'
import { CalculationSchema } from './results.ts'

const typed = z.string().trim().max(40).optional()

/** What an estimate needs beside the gradation, as typed; nothing of it is stored. What is left out is not given. */
export const EstimateQuerySchema = RevisionQuerySchema.extend({
  /** Apparent specific gravity of the aggregate. */
  apparentGravity: typed,
  /** Kerosene retained (ASTM D5148), % of dry aggregate. */
  absorption: typed,
  /** Specific gravity of the residual binder. */
  binderGravity: typed,
  /** Film of binder, µm. */
  film: typed,
  /** Cement or lime that is not in the gradation, % of dry aggregate. */
  filler: typed,
})
export type EstimateQuery = z.infer<typeof EstimateQuerySchema>
export const estimateFields = ['apparentGravity', 'absorption', 'binderGravity', 'film', 'filler'] as const
export type EstimateField = (typeof estimateFields)[number]

/** One way to estimate: computed, or refused with the sentence that says why. */
export const EstimateSchema = z.object({
  key: z.string(),
  name: z.string(),
  source: z.string(),
  certainty: z.enum(['published', 'common practice', 'from memory']),
  contents: z.array(
    z.object({
      key: z.enum(['residual-binder', 'emulsion']),
      label: z.string(),
      value: DigitsSchema,
      unit: z.string(),
      displayDecimals: z.number().int(),
      calculation: CalculationSchema,
    }),
  ),
  remarks: z.array(z.string()),
  refusal: z.object({ code: z.string(), text: z.string() }).nullable(),
})
export type Estimate = z.infer<typeof EstimateSchema>

/** What a series may begin with, before anything is tested. */
export const EstimatesSchema = z.object({
  gradation: GradationSchema.nullable(),
  residue: EnteredResultSchema.nullable(),
  /** Empty while no gradation is entered. */
  estimates: z.array(EstimateSchema),
})
export type Estimates = z.infer<typeof EstimatesSchema>
