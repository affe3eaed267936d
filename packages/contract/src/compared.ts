import { z } from 'zod'
import { DigitsSchema } from './common.ts'

export const ComparedValueSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('number'),
    digits: DigitsSchema,
    unit: z.string(),
    decimals: z.number().int().optional(),
  }),
  z.object({ kind: z.literal('words'), words: z.string() }),
])
export type ComparedValue = z.infer<typeof ComparedValueSchema>

/** One fact of two things that are compared. What it is called stands in the catalogue, under its key. */
export const ComparedRowSchema = z.object({
  key: z.string(),
  /** What the name of the row is filled with: the property, the content. */
  of: z.record(z.string(), z.string()),
  first: ComparedValueSchema.nullable(),
  second: ComparedValueSchema.nullable(),
  difference: z.enum(['same', 'differs', 'only-first', 'only-second']),
  /** How far the second number lies from the first, with its sign, unrounded; null where there are not two of one unit. */
  by: DigitsSchema.nullable(),
})
export type ComparedRow = z.infer<typeof ComparedRowSchema>

export const ComparedPartSchema = z.object({
  key: z.enum(['made-of', 'contents', 'entered', 'results', 'range', 'means', 'panel', 'recommendation']),
  rows: z.array(ComparedRowSchema),
})
export type ComparedPart = z.infer<typeof ComparedPartSchema>
