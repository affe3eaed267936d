import { z } from 'zod'
import { DigitsSchema, IdSchema } from './common.ts'
import { GradationSchema } from './gradations.ts'
import { PanelResultSchema } from './panel-results.ts'
import { CalculationSchema } from './results.ts'

export const FlagSchema = z.object({ key: z.string(), sentence: z.string() })

/** One specimen on a curve. x is the residual binder as weighed, never the target. */
export const CurvePointSchema = z.object({
  testId: IdSchema,
  resultId: IdSchema,
  code: z.string(),
  label: z.string(),
  mixId: IdSchema,
  emulsionPercent: DigitsSchema,
  x: DigitsSchema,
  y: DigitsSchema,
  /** What a reader should know of this point: "missed window, accepted", "corrected" … */
  flags: z.array(z.string()),
})
/** A result that stands in the record and does not count: shown, and in no mean, line or range. */
export const ExcludedPointSchema = CurvePointSchema.omit({ flags: true }).extend({
  kind: z.enum(['void', 'unused-spare']),
  /** Why it is void; empty for a spare in nobody's place. */
  reason: z.string(),
  /** Who voided it. */
  by: z.string().nullable(),
})
export type ExcludedPoint = z.infer<typeof ExcludedPointSchema>
/** The mean of one content as it counts, and as it would be with everything that does not. */
export const MeanWithExcludedSchema = z.object({
  mixId: IdSchema,
  emulsionPercent: DigitsSchema,
  counting: z.object({ y: DigitsSchema, n: z.number().int() }).nullable(),
  withExcluded: z.object({ y: DigitsSchema, n: z.number().int() }),
  calculation: CalculationSchema,
})
export const CurveMeanSchema = z.object({
  mixId: IdSchema,
  emulsionPercent: DigitsSchema,
  x: DigitsSchema,
  y: DigitsSchema,
  n: z.number().int(),
  standardDeviation: DigitsSchema.nullable(),
  range: DigitsSchema.nullable(),
})
export const CurveSchema = z.object({
  key: z.string(),
  methodKey: z.string(),
  property: z.string(),
  soak: z.string().nullable(),
  label: z.string(),
  unit: z.string(),
  sense: z.enum(['max', 'min']),
  limit: z
    .object({
      /** What the line is compared with: the limit, or its acceptance limit. */
      value: DigitsSchema,
      unit: z.string(),
      label: z.string(),
      source: z.string(),
      /** Under a guard band: the limit as it is held, and the rule in words. Null else, and in content signed earlier. */
      guarded: z.object({ held: DigitsSchema, rule: z.string() }).nullable().default(null),
    })
    .nullable(),
  points: z.array(CurvePointSchema),
  means: z.array(CurveMeanSchema),
  /** Neither is in content signed earlier. */
  excluded: z.array(ExcludedPointSchema).default([]),
  meansWithExcluded: z.array(MeanWithExcludedSchema).default([]),
  /** Where the line between means meets the limit, % residual. */
  crossing: DigitsSchema.nullable(),
  flags: z.array(FlagSchema),
})
export type Curve = z.infer<typeof CurveSchema>

export const RangeEndSchema = z.object({
  kind: z.enum(['crossing', 'band', 'open', 'none']),
  /** % residual binder of dry aggregate. */
  residualPercent: DigitsSchema.nullable(),
  /** The same as emulsion, % of dry aggregate, by the design's residue. */
  emulsionPercent: DigitsSchema.nullable(),
  /** What set it, in words. */
  setBy: z.string(),
  sentence: z.string(),
  calculation: CalculationSchema.nullable(),
})
export type RangeEnd = z.infer<typeof RangeEndSchema>

export const PanelRowSchema = z.object({
  key: z.string(),
  label: z.string(),
  soak: z.string().nullable(),
  limit: z.string(),
  limitSource: z.string(),
  certainty: z.string(),
  /** The value judged, full digits, and where it stands (at which content). */
  value: DigitsSchema.nullable(),
  unit: z.string().nullable(),
  /** The classes of its tests in words, where a class answers and no value. Null else, and in content signed earlier. */
  classes: z.string().nullable().default(null),
  at: z.string().nullable(),
  n: z.number().int().nullable(),
  /** How many tests are asked for, where fewer count; left out else, and in content signed earlier. */
  asked: z.number().int().optional(),
  verdict: z.enum(['pass', 'fail', 'undecided', 'not tested', 'no limit held']),
  margin: DigitsSchema.nullable(),
  sentence: z.string(),
  /** How the value came from results, the value its last line; null where there is none. Not in content signed earlier. */
  calculation: CalculationSchema.nullable().default(null),
  /** How it was found where it was entered, not computed here; null else, and in content signed earlier. */
  entered: PanelResultSchema.nullable().default(null),
  /** A value entered for what was also found here: it stands beside, judged in the sentence. Null in content signed earlier. */
  beside: PanelResultSchema.nullable().default(null),
})
export type PanelRow = z.infer<typeof PanelRowSchema>

/** The band that the specification holds, with what was found: nothing where no gradation is entered. */
export const GradationCheckSchema = z.object({
  rows: z.array(
    z.object({
      size: DigitsSchema,
      label: z.string(),
      from: DigitsSchema,
      to: DigitsSchema,
      tolerance: DigitsSchema.nullable(),
      passing: DigitsSchema.nullable(),
      verdict: z.enum(['inside', 'outside', 'not tested']),
    }),
  ),
  verdict: z.enum(['inside', 'outside', 'incomplete']),
  sentence: z.string(),
  source: z.string(),
  certainty: z.string(),
})
export type GradationCheck = z.infer<typeof GradationCheckSchema>

export const RangeViewSchema = z.object({
  designId: IdSchema,
  revisionId: IdSchema,
  residue: z.object({ value: DigitsSchema, unit: z.string(), source: z.string() }).nullable(),
  basis: z.string(),
  curves: z.array(CurveSchema),
  minimum: RangeEndSchema,
  maximum: RangeEndSchema,
  midpoint: z
    .object({
      residualPercent: DigitsSchema,
      emulsionPercent: DigitsSchema.nullable(),
      calculation: CalculationSchema,
    })
    .nullable(),
  testedSpan: z.object({ from: DigitsSchema, to: DigitsSchema }).nullable(),
  band: z.object({ from: DigitsSchema.nullable(), to: DigitsSchema.nullable(), source: z.string() }),
  /** The outcome in one plain sentence, and everything that must be said beside it. */
  sentence: z.string(),
  /** How means and limits were compared for the ends, said beside the range. */
  comparison: z.string(),
  flags: z.array(FlagSchema),
  panel: z.array(PanelRowSchema),
  /** Properties that no method here computes, with the units in which a result of theirs may be entered. */
  enterable: z.array(z.object({ key: z.string(), units: z.array(z.string()) })),
  overall: z.string(),
  /** The gradation of the aggregate as it was entered. */
  gradation: GradationSchema.nullable(),
  /** Its sieves against the band of the specification; null where none is held. */
  gradationCheck: GradationCheckSchema.nullable(),
})
export type RangeView = z.infer<typeof RangeViewSchema>

/** Which specimens to leave out, by their tests. */
export const AskWhatIfSchema = z.strictObject({
  without: z
    .array(IdSchema)
    .min(1, 'Choose at least one specimen to leave out')
    .max(200)
    .refine((ids) => new Set(ids).size === ids.length, 'Name each specimen once'),
})
export type AskWhatIf = z.infer<typeof AskWhatIfSchema>

/** The range as it would be without some specimens. It is answered and forgotten: no record, signature or report has it. */
export const WhatIfSchema = z.object({
  recorded: z.literal(false),
  without: z.array(z.object({ testId: IdSchema, code: z.string(), label: z.string(), curve: z.string() })),
  range: RangeViewSchema,
})
export type WhatIf = z.infer<typeof WhatIfSchema>
