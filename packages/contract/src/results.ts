import { z } from 'zod'
import { DigitsSchema, IdSchema, InstantSchema } from './common.ts'

export const CalculationLineSchema = z.object({
  symbol: z.string(),
  name: z.string(),
  op: z.enum(['input', 'difference', 'product', 'quotient', 'sum', 'mean', 'convert', 'interpolate', 'round']),
  operands: z.array(z.string()),
  value: z.string(),
  unit: z.string(),
  source: z.string(),
  input: z
    .object({
      kind: z.enum(['reading', 'result', 'factor', 'parameter', 'constant']),
      id: z.string().optional(),
      key: z.string().optional(),
    })
    .optional(),
})
export const CalculationSchema = z.object({ schema: z.literal(1), lines: z.array(CalculationLineSchema) })

/** One stored result with its calculation and what stood before it. */
export const ResultSchema = z.object({
  id: IdSchema,
  key: z.string(),
  label: z.string(),
  value: DigitsSchema.nullable(),
  unit: z.string().nullable(),
  displayDecimals: z.number().int(),
  /** The class that was found, in words, where the result is no number. */
  choice: z.string().nullable(),
  /** What was read outside the method's limits and is used all the same. */
  findings: z.string().nullable(),
  refusal: z.object({ code: z.string(), text: z.string() }).nullable(),
  methodKey: z.string().nullable(),
  computation: z.number().int().nullable(),
  build: z.string().nullable(),
  edition: z.object({ id: IdSchema, designation: z.string() }).nullable(),
  at: InstantSchema,
  calculation: CalculationSchema.nullable(),
  /** Whether the independent checker finds the same digits in every line. */
  checked: z.object({ agrees: z.boolean(), differing: z.array(z.string()) }).nullable(),
  superseded: z.boolean(),
  earlier: z.array(
    z.object({
      id: IdSchema,
      value: DigitsSchema.nullable(),
      unit: z.string().nullable(),
      at: InstantSchema,
      reason: z.string().nullable(),
    }),
  ),
})
export type Result = z.infer<typeof ResultSchema>
export type Calculation = z.infer<typeof CalculationSchema>
