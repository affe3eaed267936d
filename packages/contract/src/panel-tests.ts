import { z } from 'zod'
import { ResultBriefSchema } from './bench.ts'
import { DigitsSchema, IdSchema } from './common.ts'
import { TestStateSchema } from './designs.ts'
import { ItemFormSchema } from './item-forms.ts'

/** One test of the panel: planned, running or done, with what it found so far. */
export const PanelTestSchema = z.object({
  testId: IdSchema,
  code: z.string(),
  label: z.string(),
  form: ItemFormSchema,
  methodKey: z.string(),
  methodName: z.string(),
  /** Null for what depends on no content. */
  emulsionPercent: DigitsSchema.nullable(),
  state: TestStateSchema,
  stepTitle: z.string().nullable(),
  results: z.array(ResultBriefSchema),
})
export type PanelTest = z.infer<typeof PanelTestSchema>

const AxisSchema = z.object({ label: z.string(), unit: z.string() })

/** The tests of one or more methods, drawn together; points in the units of the axes. */
export const PanelChartSchema = z.object({
  key: z.string(),
  title: z.string(),
  x: AxisSchema,
  y: AxisSchema,
  lines: z.array(
    z.object({
      key: z.string(),
      label: z.string(),
      points: z.array(z.object({ testId: IdSchema, code: z.string(), x: DigitsSchema, y: DigitsSchema })),
    }),
  ),
  /** Limits of the specification that stand in the unit of y. */
  limits: z.array(
    z.object({
      key: z.string(),
      label: z.string(),
      value: DigitsSchema,
      /** The upper end of a limit with two. */
      upper: DigitsSchema.nullable(),
      unit: z.string(),
      sense: z.string(),
      /** The acceptance limit inside it, under a guard band: of a limit with two ends both. */
      accepted: z.object({ value: DigitsSchema, upper: DigitsSchema.nullable() }).nullable(),
    }),
  ),
})
export type PanelChart = z.infer<typeof PanelChartSchema>

/** What a limit of the specification may be answered by. */
export const PanelPropertySchema = z.object({
  limitKey: z.string(),
  methods: z.array(z.object({ key: z.string(), name: z.string(), place: z.enum(['series', 'panel']) })),
})

/** The mean of the tests of one content, full digits, or the class of each; nothing is held against it. */
const FoundSchema = z.object({
  methodKey: z.string(),
  /** Null for what depends on no content. */
  emulsionPercent: DigitsSchema.nullable(),
  n: z.number().int(),
  value: DigitsSchema.nullable(),
  unit: z.string().nullable(),
  classes: z.string().nullable(),
})

/** A ready-made set of tests: what it asks for, whatever limits stand in the specification. */
export const ReadyPanelSchema = z.object({
  key: z.string(),
  name: z.string(),
  source: z.string(),
  tests: z.array(
    z.object({
      designation: z.string(),
      title: z.string(),
      properties: z.array(
        z.object({
          label: z.string(),
          /** The limit of this design's specification; null where it holds none. */
          limitKey: z.string().nullable(),
          /** What tests beside the series found of it where no limit is held: a value or the classes, by method and content. */
          found: z.array(FoundSchema),
          methods: z.array(z.object({ key: z.string(), name: z.string(), place: z.enum(['series', 'panel']) })),
        }),
      ),
    }),
  ),
})
export type ReadyPanel = z.infer<typeof ReadyPanelSchema>

/** How many tests of a method at one content count, and how many their editions ask for. */
export const AskedCountSchema = z.object({
  methodKey: z.string(),
  methodName: z.string(),
  /** Null for what depends on no content. */
  emulsionPercent: DigitsSchema.nullable(),
  counted: z.number().int(),
  /** Planned or running. */
  open: z.number().int(),
  voided: z.number().int(),
  asked: z.number().int(),
})
export type AskedCount = z.infer<typeof AskedCountSchema>

export const PanelTestsSchema = z.object({
  tests: z.array(PanelTestSchema),
  charts: z.array(PanelChartSchema),
  /** How far the series of each method is; void specimens and spares in nobody's place are left out. */
  series: z.array(
    z.object({ methodKey: z.string(), count: z.number().int(), begun: z.number().int(), done: z.number().int() }),
  ),
  counts: z.array(AskedCountSchema),
  properties: z.array(PanelPropertySchema),
  panels: z.array(ReadyPanelSchema),
})
export type PanelTests = z.infer<typeof PanelTestsSchema>
