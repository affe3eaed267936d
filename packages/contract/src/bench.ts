import { z } from 'zod'
import {
  DigitsSchema,
  EventTimeSchema,
  IdSchema,
  InstantSchema,
  PersonNameSchema,
  TextSchema,
  TypedSchema,
} from './common.ts'
import { TestStateSchema } from './designs.ts'
import { WaitingSchema } from './deviations.ts'
import { CheckBoundsSchema } from './instrument-checks.ts'
import { ObservationSchema } from './observations.ts'
import { RunPartSchema } from './parts.ts'
import { UrgencySchema } from './schedule.ts'

/** One act waiting at the bench, soonest window first. */
export const BenchTaskSchema = z.object({
  testId: IdSchema,
  itemId: IdSchema,
  code: z.string(),
  label: z.string(),
  form: z.enum(['batch', 'disc', 'strip', 'biscuit', 'pill']),
  designId: IdSchema,
  designName: z.string(),
  methodKey: z.string(),
  methodName: z.string(),
  stepKey: z.string(),
  stepTitle: z.string(),
  act: z.enum(['start', 'end', 'reading']),
  actLabel: z.string(),
  opensAt: InstantSchema.nullable(),
  closesAt: InstantSchema.nullable(),
  urgency: UrgencySchema,
  /** Whether it is put in, or run after its soak, one specimen after another: a list of times is offered. */
  putIn: z.boolean(),
  /** Of a batch, and of a specimen to be cast: its place in the casting order of its design and test. */
  castPlace: z.object({ methodKey: z.string(), ordinal: z.number().int(), of: z.number().int() }).nullable(),
})
export type BenchTask = z.infer<typeof BenchTaskSchema>
/** `now` is the laboratory's clock, by which windows on screen are drawn. */
export const BenchQueueSchema = z.object({ now: InstantSchema, tasks: z.array(BenchTaskSchema) })
export type BenchQueue = z.infer<typeof BenchQueueSchema>

/** A typed or scanned code, and what waits for that item. */
export const BenchLookupSchema = z.object({
  itemId: IdSchema,
  code: z.string(),
  label: z.string(),
  testId: IdSchema.nullable(),
  sentence: z.string(),
})
export type BenchLookup = z.infer<typeof BenchLookupSchema>

export const ReadingSchema = z.object({
  id: IdSchema,
  testId: IdSchema,
  stepKey: z.string(),
  key: z.string(),
  repeat: z.number().int(),
  /** As typed, never altered. */
  typed: z.string(),
  value: DigitsSchema.nullable(),
  unit: z.string().nullable(),
  choice: z.string().nullable(),
  by: PersonNameSchema,
  eventAt: InstantSchema,
  receivedAt: InstantSchema,
  confirmedOdd: z.boolean(),
  /** Entered from paper, later; with the photograph of the sheet where there is one. */
  transcribed: z.boolean(),
  attachment: z.object({ id: IdSchema, name: z.string() }).nullable(),
  instrument: z.object({ id: IdSchema, code: z.string() }).nullable(),
  supersedes: z.object({ id: IdSchema, typed: z.string(), by: PersonNameSchema, reason: z.string() }).nullable(),
  superseded: z.boolean(),
  /** Kept, and does not count until it is released. */
  waits: z.boolean(),
})
export type Reading = z.infer<typeof ReadingSchema>

export const ResultBriefSchema = z.object({
  id: IdSchema,
  key: z.string(),
  label: z.string(),
  value: DigitsSchema.nullable(),
  unit: z.string().nullable(),
  displayDecimals: z.number().int(),
  refusal: z.object({ code: z.string(), text: z.string() }).nullable(),
})
export type ResultBrief = z.infer<typeof ResultBriefSchema>

export const WindowStateSchema = z.object({
  key: z.string(),
  label: z.string(),
  stepKey: z.string(),
  opensAt: InstantSchema.nullable(),
  closesAt: InstantSchema.nullable(),
  state: z.enum(['pending', 'open', 'met', 'early', 'late', 'missed']),
  marginSeconds: z.number().int().nullable(),
  finding: z.boolean(),
})
export type WindowState = z.infer<typeof WindowStateSchema>

export const SuspicionSchema = z.object({
  kind: z.enum(['swap', 'transposed', 'odd']),
  sentence: z.string(),
  codes: z.array(z.string()),
})
export type Suspicion = z.infer<typeof SuspicionSchema>

export const StepEventSchema = z.object({
  id: IdSchema,
  stepKey: z.string(),
  kind: z.enum(['start', 'end', 'void']),
  eventAt: InstantSchema,
  receivedAt: InstantSchema,
  by: PersonNameSchema,
  note: z.string().nullable(),
  /** Entered from paper, later. */
  transcribed: z.boolean(),
  /** Lots of hose, tyre, felt and sand that were on the machine when it happened. */
  parts: z.array(RunPartSchema),
})
export type StepEvent = z.infer<typeof StepEventSchema>

/** What the bench screen is drawn from: `@curebook/trade` MethodDeclaration without its function, as JSON. */
export const MethodDeclarationJsonSchema = z.object({
  key: z.string(),
  name: z.string(),
  shortName: z.string(),
  form: z.string(),
  steps: z.array(z.any()),
  windows: z.array(z.any()),
})

/** Everything about one test for the bench: declaration, what was read, what is due, its siblings. */
export const TestViewSchema = z.object({
  now: InstantSchema,
  id: IdSchema,
  item: z.object({ id: IdSchema, code: z.string(), label: z.string(), form: z.string() }),
  design: z.object({ id: IdSchema, name: z.string(), projectName: z.string() }),
  emulsionPercent: DigitsSchema.nullable(),
  purpose: z.string(),
  method: MethodDeclarationJsonSchema,
  /** Edition in force for this test: parameters with source and certainty. */
  edition: z.object({ id: IdSchema, designation: z.string(), parameters: z.record(z.string(), z.any()) }),
  state: TestStateSchema,
  currentStep: z.string().nullable(),
  nextAct: z.object({ stepKey: z.string(), act: z.enum(['start', 'end', 'reading']) }).nullable(),
  /** Steps that must not begin yet, with the reason (a reading would be lost). */
  locks: z.array(z.object({ stepKey: z.string(), sentence: z.string() })),
  /** Batch only: targets by reading key, g. */
  targets: z.record(z.string(), DigitsSchema),
  /** The batch's test behind a specimen, the specimen's test behind a batch. */
  relatedTestId: IdSchema.nullable(),
  instruments: z.array(
    z.object({
      id: IdSchema,
      code: z.string(),
      name: z.string(),
      kind: z.string(),
      capacity: DigitsSchema.nullable(),
      capacityUnit: z.string().nullable(),
      resolution: DigitsSchema.nullable(),
      /** What is on it now. */
      parts: z.array(RunPartSchema),
      /** Of a loaded wheel: the last check of its load. */
      loadCheck: z
        .object({ typed: z.string(), bounds: CheckBoundsSchema, passed: z.boolean(), checkedAt: InstantSchema })
        .nullable(),
      /** Why a reading with it today would wait for release. */
      fault: z.string().nullable(),
    }),
  ),
  /** Why whoever looks is not authorised for the method today: what they read is kept and waits for release. */
  notAuthorised: z.string().nullable(),
  readings: z.array(ReadingSchema),
  events: z.array(StepEventSchema),
  observations: z.array(ObservationSchema),
  windows: z.array(WindowStateSchema),
  results: z.array(ResultBriefSchema),
  suspicions: z.array(SuspicionSchema),
  /** Replicates of the same mix and method, for the expected difference. */
  siblings: z.array(
    z.object({ testId: IdSchema, code: z.string(), label: z.string(), results: z.array(ResultBriefSchema) }),
  ),
  deviations: z.array(
    z.object({
      id: IdSchema,
      kind: z.string(),
      text: z.string(),
      decision: z.string().nullable(),
      waiting: WaitingSchema.nullable(),
    }),
  ),
  voided: z.object({ reason: z.string(), by: PersonNameSchema, at: InstantSchema }).nullable(),
  assignee: PersonNameSchema.nullable(),
})
export type TestView = z.infer<typeof TestViewSchema>

/** A rack to weigh in any order: the specimens whose next act is this reading. */
export const RackSchema = z.object({
  now: InstantSchema,
  methodKey: z.string(),
  stepKey: z.string(),
  readingKey: z.string(),
  rows: z.array(
    z.object({
      testId: IdSchema,
      code: z.string(),
      label: z.string(),
      /** Earlier readings of the same quantity, for the running difference. */
      earlier: z.array(z.object({ label: z.string(), typed: z.string() })),
      reading: ReadingSchema.nullable(),
      opensAt: InstantSchema.nullable(),
      closesAt: InstantSchema.nullable(),
    }),
  ),
})
export type Rack = z.infer<typeof RackSchema>

export const PostReadingSchema = z.strictObject({
  id: IdSchema,
  stepKey: z.string(),
  key: z.string(),
  repeat: z.number().int().min(1).max(20).default(1),
  /** As typed; the server reads it by the method's own declaration. */
  typed: TypedSchema,
  instrumentId: IdSchema.nullable().default(null),
  time: EventTimeSchema,
  /** The person was asked about an odd value and kept it. */
  confirmedOdd: z.boolean().default(false),
  deviceId: IdSchema.nullable().default(null),
  /** The photograph of the sheet it was read from, sent before under its own id. */
  attachmentId: IdSchema.optional(),
})
export type PostReading = z.infer<typeof PostReadingSchema>

export const CorrectReadingSchema = z.strictObject({
  id: IdSchema,
  typed: TypedSchema,
  reason: z.string().trim().min(1, 'Choose or write the reason').max(500),
  time: EventTimeSchema,
})
export type CorrectReading = z.infer<typeof CorrectReadingSchema>

/** What a reading set in motion. */
export const PostedReadingSchema = z.object({
  reading: ReadingSchema,
  results: z.array(ResultBriefSchema),
  suspicions: z.array(SuspicionSchema),
  testState: TestStateSchema,
  windows: z.array(WindowStateSchema),
  /** Why the reading does not count yet and who may release it; empty when it counts. */
  waits: z.array(z.object({ deviationId: IdSchema, text: z.string(), sentence: z.string() })),
})
export type PostedReading = z.infer<typeof PostedReadingSchema>

/** One act confirmed for many chosen specimens, one row each; rows that cannot be confirmed are reported, the others go on. */
export const PostStepEventsSchema = z.strictObject({
  stepKey: z.string(),
  kind: z.enum(['start', 'end']),
  rows: z
    .array(z.strictObject({ id: IdSchema, testId: IdSchema }))
    .min(1)
    .max(200),
  instrumentId: IdSchema.nullable().default(null),
  time: EventTimeSchema,
})
export type PostStepEvents = z.infer<typeof PostStepEventsSchema>

export const VoidTestSchema = z.strictObject({ id: IdSchema, reason: TextSchema, time: EventTimeSchema })
export type VoidTest = z.infer<typeof VoidTestSchema>

/** Puts a spare in the place of a voided specimen. */
export const ReplaceTestSchema = z.strictObject({ spareTestId: IdSchema, reason: TextSchema })
export type ReplaceTest = z.infer<typeof ReplaceTestSchema>
