import { z } from 'zod'
import { DigitsSchema, IdSchema, InstantSchema } from './common.ts'
import { checkKinds } from './instrument-check-kinds.ts'

const LimitsSchema = z.object({ centre: DigitsSchema, lower: DigitsSchema, upper: DigitsSchema })

/** Checks of one thing against one nominal value, oldest first, as a control chart of individuals and moving ranges. */
export const CheckChartSchema = z.object({
  key: z.string(),
  kind: z.enum(checkKinds),
  nominal: DigitsSchema,
  unit: z.string(),
  /** All that stand; the latest of them are drawn. */
  count: z.number().int(),
  /** How many more it takes until limits are drawn; 0 where they are. */
  missing: z.number().int(),
  points: z.array(
    z.object({
      id: IdSchema,
      checkedAt: InstantSchema,
      value: DigitsSchema,
      /** From the check before; null for the first. */
      movingRange: DigitsSchema.nullable(),
      /** Rules that this point completes a signal of. */
      signals: z.array(z.string()),
    }),
  ),
  /** Null where checks are missing, and where all read the same. */
  limits: z.object({ individuals: LimitsSchema, movingRange: LimitsSchema, rules: z.string() }).nullable(),
})
export type CheckChart = z.infer<typeof CheckChartSchema>
