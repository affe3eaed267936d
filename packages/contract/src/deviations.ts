import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema, TextSchema } from './common.ts'

/** Something that went otherwise than the method asks: recorded, decided, printed in the report. */
export const DeviationSchema = z.object({
  id: IdSchema,
  kind: z.enum(['window', 'condition', 'custody', 'calibration', 'competence', 'impossible', 'other']),
  text: z.string(),
  openedAt: InstantSchema,
  openedByRule: z.boolean(),
  by: PersonNameSchema.nullable(),
  testId: IdSchema.nullable(),
  itemCode: z.string().nullable(),
  label: z.string().nullable(),
  designId: IdSchema.nullable(),
  designName: z.string().nullable(),
  decision: z
    .object({ kind: z.enum(['accept', 'void', 'repeat']), reason: z.string(), by: PersonNameSchema, at: InstantSchema })
    .nullable(),
})
export type Deviation = z.infer<typeof DeviationSchema>

/** Manager or engineer: accept with a reason, void the specimen, or repeat it on a spare. */
export const DecideDeviationSchema = z.strictObject({
  id: IdSchema,
  kind: z.enum(['accept', 'void', 'repeat']),
  reason: TextSchema,
  /** For repeat: the spare that takes the place. */
  spareTestId: IdSchema.nullable().default(null),
})
export type DecideDeviation = z.infer<typeof DecideDeviationSchema>
