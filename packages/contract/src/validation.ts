import { z } from 'zod'
import { InstantSchema } from './common.ts'

/** One reference case run on this installation. */
export const ValidationRowSchema = z.object({
  method: z.string(),
  title: z.string(),
  source: z.string(),
  inputs: z.array(z.object({ name: z.string(), value: z.string() })),
  expected: z.string(),
  obtained: z.string(),
  unit: z.string(),
  tolerance: z.string(),
  agrees: z.boolean(),
  computation: z.number().int(),
})
export const ValidationSchema = z.object({
  at: InstantSchema,
  version: z.string(),
  node: z.string(),
  rows: z.array(ValidationRowSchema),
  agreeing: z.number().int(),
  differing: z.number().int(),
})
export type Validation = z.infer<typeof ValidationSchema>
