import { z } from 'zod'
import { DigitsSchema, IdSchema } from './common.ts'

/** A result among its replicates. */
export const ReplicateSchema = z.object({ testId: IdSchema, code: z.string(), label: z.string(), value: DigitsSchema })

/** What a test for an outlier says. Nothing is left out by it. */
export const OutlierTestSchema = z.object({
  test: z.enum(['Grubbs', 'Dixon']),
  /** "T" of Grubbs, or Dixon's ratio. */
  ratio: z.string(),
  statistic: DigitsSchema,
  critical: DigitsSchema,
  /** Two-sided, in per cent. */
  significancePercent: DigitsSchema,
  exceeds: z.boolean(),
  /** The result that lies furthest out. */
  suspect: ReplicateSchema.nullable(),
})
export type OutlierTest = z.infer<typeof OutlierTestSchema>

/** Two results or more of one test at one content, in one unit. */
export const ReplicateGroupSchema = z.object({
  key: z.string(),
  place: z.enum(['series', 'panel']),
  /** Which mean of which curve it is; null beside the series. */
  curve: z.object({ key: z.string(), mixId: IdSchema }).nullable(),
  methodKey: z.string(),
  methodName: z.string(),
  /** What the results are: "Mix time". */
  label: z.string(),
  unit: z.string(),
  displayDecimals: z.number().int(),
  /** Null for what depends on no content. */
  emulsionPercent: DigitsSchema.nullable(),
  /** Of samples of the road: they are replicates only as far as they are parts of one sample. */
  ofSample: z.boolean(),
  results: z.array(ReplicateSchema),
  n: z.number().int(),
  mean: DigitsSchema,
  standardDeviation: DigitsSchema,
  range: DigitsSchema,
  /** Limit r of two results by one operator, as the edition of the tests holds it. */
  repeatability: z
    .object({ value: DigitsSchema, unit: z.string(), source: z.string(), certainty: z.string() })
    .nullable(),
  /** Why there is none: none is published, or the tests' editions hold different ones. */
  noRepeatability: z.enum(['none-published', 'editions-differ']).nullable(),
  /** What so many results may span by it, and whether they do; null without one, and for more than ten results. */
  acceptable: z.object({ limit: DigitsSchema, within: z.boolean() }).nullable(),
  outliers: z.array(OutlierTestSchema),
  /** Why no outlier test was made. */
  untested: z.enum(['too-few', 'too-coarse']).nullable(),
})
export type ReplicateGroup = z.infer<typeof ReplicateGroupSchema>

export const ReplicatesSchema = z.object({
  groups: z.array(ReplicateGroupSchema),
  /** Methods whose tests at one content are no replicates of each other, and why. */
  apart: z.array(z.object({ methodName: z.string(), why: z.string() })),
})
export type Replicates = z.infer<typeof ReplicatesSchema>
