import { z } from 'zod'
import {
  DaySchema,
  DigitsSchema,
  GivenDigitsSchema,
  IdSchema,
  InstantSchema,
  PersonNameSchema,
  SupersedesSchema,
  TypedSchema,
} from './common.ts'
import { ItemFormSchema } from './item-forms.ts'
import { MadeBySchema } from './made-by.ts'
import { MaterialSchema } from './materials.ts'
import { DesignStateSchema, JobKindSchema } from './projects.ts'
import { NamedVersionSchema, SpecificationSchema } from './specifications.ts'

export const DesignSummarySchema = z.object({
  id: IdSchema,
  name: z.string(),
  projectId: IdSchema,
  projectName: z.string(),
  clientName: z.string(),
  kind: JobKindSchema,
  revisionId: IdSchema,
  revision: z.number().int(),
  state: DesignStateSchema,
  /** Tests finished, void ones left out, of all that count. */
  testsDone: z.number().int(),
  testsTotal: z.number().int(),
  /** Set while the design is sent back: by whom, why, and the points it names. */
  sentBack: z
    .object({ by: PersonNameSchema, at: InstantSchema, reason: z.string(), points: z.array(z.string()) })
    .nullable(),
})
export type DesignSummary = z.infer<typeof DesignSummarySchema>

/** A result entered rather than computed here: residue, aggregate moisture. */
export const EnteredResultSchema = z.object({
  id: IdSchema,
  key: z.enum(['residue', 'aggregate-moisture']),
  /** As typed. */
  typed: z.string(),
  value: DigitsSchema,
  unit: z.string(),
  /** "Own test, ASTM D6934" or "Supplier's certificate 4417". */
  source: z.string(),
  /** Who made it, where that was said; null for values entered before it was asked. */
  madeBy: MadeBySchema.nullable(),
  observedOn: DaySchema,
  by: PersonNameSchema,
  at: InstantSchema,
  supersedes: z.object({ id: IdSchema, typed: z.string(), reason: z.string() }).nullable(),
})
export type EnteredResult = z.infer<typeof EnteredResultSchema>

export const EnterResultSchema = z.strictObject({
  id: IdSchema,
  key: z.enum(['residue', 'aggregate-moisture']),
  typed: TypedSchema,
  unit: z.literal('%'),
  source: z.string().trim().min(1, 'Say where the value comes from: own test or certificate, and which').max(300),
  /** Without it the first word of the source tells. */
  madeBy: MadeBySchema.optional(),
  observedOn: DaySchema,
  /** With the present value's id and a reason where it replaces one. */
  supersedes: SupersedesSchema.optional(),
})
export type EnterResult = z.infer<typeof EnterResultSchema>

/** One content of the binder series. Percentages are of dry aggregate, as typed. */
export const MixSchema = z.object({
  id: IdSchema,
  ordinal: z.number().int(),
  emulsionPercent: DigitsSchema,
  waterPercent: DigitsSchema,
  fillerPercent: DigitsSchema,
  additivePercent: DigitsSchema,
})
export type Mix = z.infer<typeof MixSchema>

export const DesignSchema = DesignSummarySchema.extend({
  version: z.number().int(),
  specification: SpecificationSchema,
  /** Why another one than the project stood on was chosen; null where none was. */
  specificationReason: z.string().nullable(),
  /** What the project stands on now; null where none was set. */
  projectSpecification: NamedVersionSchema.nullable(),
  materials: z.object({
    aggregate: MaterialSchema,
    emulsion: MaterialSchema,
    filler: MaterialSchema.nullable(),
    additive: MaterialSchema.nullable(),
    water: MaterialSchema.nullable(),
  }),
  /** Fraction of the aggregate that specimens are cast from, and how much was taken off. */
  fractionUsed: z.string(),
  scalpedPercent: z.string(),
  residue: EnteredResultSchema.nullable(),
  moisture: EnteredResultSchema.nullable(),
  mixes: z.array(MixSchema),
  revisions: z.array(z.object({ id: IdSchema, number: z.number().int(), state: DesignStateSchema })),
})
export type Design = z.infer<typeof DesignSchema>

export const CreateDesignSchema = z.strictObject({
  id: IdSchema,
  revisionId: IdSchema,
  projectId: IdSchema,
  name: z.string().trim().min(1, 'Name the design').max(200),
  /** Left out: the one that the project stands on. */
  specificationId: IdSchema.optional(),
  /** Why it is another one than the project stands on; kept only where it is. */
  specificationReason: z.string().trim().max(500).optional(),
  aggregateId: IdSchema,
  emulsionId: IdSchema,
  fillerId: IdSchema.nullable(),
  additiveId: IdSchema.nullable(),
  waterId: IdSchema.nullable(),
  fractionUsed: z.string().trim().max(200).default(''),
  scalpedPercent: z.string().trim().max(20).default(''),
})
export type CreateDesign = z.infer<typeof CreateDesignSchema>

/** Only what changes. Materials can change until specimens are planned from them. */
export const UpdateDesignSchema = z.strictObject({
  name: z.string().trim().min(1, 'Name the design').max(200).optional(),
  specificationId: IdSchema.optional(),
  /** Why it is another one than the project stands on; kept only where it is. */
  specificationReason: z.string().trim().max(500).optional(),
  aggregateId: IdSchema.optional(),
  emulsionId: IdSchema.optional(),
  fillerId: IdSchema.nullable().optional(),
  additiveId: IdSchema.nullable().optional(),
  waterId: IdSchema.nullable().optional(),
  fractionUsed: z.string().trim().max(200).optional(),
  scalpedPercent: z.string().trim().max(20).optional(),
})
export type UpdateDesign = z.infer<typeof UpdateDesignSchema>

/** A revision by its number; the newest without. */
export const RevisionQuerySchema = z.strictObject({ revision: z.coerce.number().int().min(1).max(100_000).optional() })

const howMany = 'Enter a whole number from 1 to 10.'
/** Specimens of one test at one content. */
const HowManySchema = z.number(howMany).int(howMany).min(1, howMany).max(10, howMany)

/** Plans a binder series: mixes with their batch sheets, specimens with codes, tests. Needs an Idempotency-Key. */
export const PlanSeriesSchema = z.strictObject({
  contents: z
    .array(
      z.strictObject({
        emulsionPercent: GivenDigitsSchema,
        waterPercent: GivenDigitsSchema,
        fillerPercent: GivenDigitsSchema,
        additivePercent: GivenDigitsSchema,
      }),
    )
    .min(1, 'Give at least one emulsion content')
    .max(12),
  methods: z
    .array(
      z.strictObject({
        methodKey: z.string(),
        replicates: HowManySchema,
        /** Spares at chosen contents: [{ emulsionPercent: '12', count: 1 }]. */
        spares: z
          .array(z.strictObject({ emulsionPercent: GivenDigitsSchema, count: z.number().int().min(1).max(10) }))
          .default([]),
      }),
    )
    .min(1, 'Choose at least one test'),
})
export type PlanSeries = z.infer<typeof PlanSeriesSchema>

/** Plans tests that are made of the materials and depend on no content. Needs an Idempotency-Key. */
export const PlanMaterialTestSchema = z.strictObject({
  methodKey: z.string().min(1, 'Choose a test').max(100),
  replicates: HowManySchema,
})
export type PlanMaterialTest = z.infer<typeof PlanMaterialTestSchema>

/** One component of a batch sheet, target in g at full precision. */
export const BatchSheetRowSchema = z.object({
  component: z.enum(['aggregate', 'filler', 'water', 'additive', 'emulsion']),
  targetG: DigitsSchema,
})
export const BatchSheetSchema = z.object({
  mixId: IdSchema,
  emulsionPercent: DigitsSchema,
  form: ItemFormSchema,
  methodKey: z.string(),
  /** Tests of the specimens whose batches are weighed by it: one content may be planned under several editions. */
  testIds: z.array(IdSchema),
  dryAggregateG: DigitsSchema,
  moisturePercent: DigitsSchema.nullable(),
  /** Part of the aggregate to weigh from, and how much was taken off to get it; empty where nothing was. */
  fractionUsed: z.string(),
  scalpedPercent: z.string(),
  rows: z.array(BatchSheetRowSchema),
  /** Residual binder by basis, where the residue is known. */
  residual: z.array(z.object({ basis: z.string(), percent: DigitsSchema })),
  /** What cannot be computed and why, in a sentence. */
  refusal: z.string().nullable(),
})
export type BatchSheet = z.infer<typeof BatchSheetSchema>

export const TestStateSchema = z.enum(['waiting', 'in-work', 'done', 'void', 'replaced', 'spare'])
export type TestState = z.infer<typeof TestStateSchema>

/** One specimen with its test, and the batch it is made from: the test itself where it is made of the materials. */
export const SpecimenRowSchema = z.object({
  itemId: IdSchema,
  code: z.string(),
  /** Content and replicate: "12-1". */
  label: z.string(),
  form: ItemFormSchema,
  testId: IdSchema,
  batchTestId: IdSchema,
  methodKey: z.string(),
  methodName: z.string(),
  /** Null for what is made of the materials and depends on no content. */
  mixId: IdSchema.nullable(),
  emulsionPercent: DigitsSchema.nullable(),
  replicate: z.number().int(),
  purpose: z.enum(['series', 'spare']),
  state: TestStateSchema,
  stepTitle: z.string().nullable(),
  assignee: PersonNameSchema.nullable(),
  replaces: z.string().nullable(),
  voidReason: z.string().nullable(),
  /** A reading of it or of its batch is kept and does not count until released. */
  waits: z.boolean(),
})
export type SpecimenRow = z.infer<typeof SpecimenRowSchema>
