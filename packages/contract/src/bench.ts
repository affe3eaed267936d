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
import { LineSettingsSchema } from './instrument-lines.ts'
import { itemForms } from './item-forms.ts'
import { ObservationSchema } from './observations.ts'
import { RunPartSchema } from './parts.ts'
import { UrgencySchema } from './schedule.ts'

/** One act waiting at the bench, soonest window first. */
export const BenchTaskSchema = z.object({
  testId: IdSchema,
  itemId: IdSchema,
  code: z.string(),
  label: z.string(),
  form: z.enum(['batch', ...itemForms]),
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
  castPlace: z
    .object({
      methodKey: z.string(),
      methodName: z.string(),
      /** What is cast for it: batches of discs and of strips wait in one row and have the same labels. */
      form: z.enum(['batch', ...itemForms]),
      ordinal: z.number().int(),
      of: z.number().int(),
    })
    .nullable(),
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
  /** Of a batch: the bag or container that it was weighed out of, where it was named. */
  drawnFrom: z.object({ id: IdSchema, code: z.string() }).nullable(),
  supersedes: z.object({ id: IdSchema, typed: z.string(), by: PersonNameSchema, reason: z.string() }).nullable(),
  /** Another stands in its place, or it was taken back. */
  superseded: z.boolean(),
  /** Taken back right after it was entered; absent where it was not. Its slot is open until another stands in it. */
  withdrawn: z.object({ by: PersonNameSchema, at: InstantSchema, reason: z.string() }).optional(),
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
  /** The class that was found, in words, where the result is no number. */
  choice: z.string().nullable(),
  /** What was read outside the method's limits and is used all the same. */
  findings: z.string().nullable(),
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
  kind: z.enum(['swap', 'transposed', 'odd', 'overdrawn']),
  sentence: z.string(),
  codes: z.array(z.string()),
})
export type Suspicion = z.infer<typeof SuspicionSchema>

/** What a component of a batch may be weighed out of: the sample that its design names and what was set apart of it. */
export const DrawSourceSchema = z.object({
  component: z.string(),
  items: z.array(
    z.object({
      id: IdSchema,
      code: z.string(),
      kind: z.enum(['sample', 'split', 'bag']),
      fraction: z.string().nullable(),
      /** By the record; 0: used up. Null: never weighed. */
      leftG: DigitsSchema.nullable(),
      /** What batches drew of it beyond what there was by the record. */
      overG: DigitsSchema.nullable(),
      /** In the laboratory's care and not promised away. */
      here: z.boolean(),
    }),
  ),
  /** The one that was weighed out of last, while something is left in it. */
  inUseId: IdSchema.nullable(),
})
export type DrawSource = z.infer<typeof DrawSourceSchema>

export const StepEventSchema = z.object({
  id: IdSchema,
  stepKey: z.string(),
  kind: z.enum(['start', 'end', 'void']),
  eventAt: InstantSchema,
  receivedAt: InstantSchema,
  by: PersonNameSchema,
  note: z.string().nullable(),
  /** When it was told to have happened before, by whom, and why it was put right. */
  corrects: z.object({ at: InstantSchema, name: z.string(), reason: z.string() }).nullable(),
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
  /** Batch only: what each component may be weighed out of. */
  sources: z.array(DrawSourceSchema),
  /** The batch's test behind a specimen, the specimen's test behind a batch. */
  relatedTestId: IdSchema.nullable(),
  /** Of a specimen: its batch is not weighed and mixed yet. Not in answers kept by a device earlier. */
  batchOpen: z.boolean().default(false),
  /** Of a batch: what is cast from it, and the step that it waits for. Not in answers kept by a device earlier. */
  specimen: z
    .object({
      methodKey: z.string(),
      methodName: z.string(),
      /** Its test stands beside the series, at one content. */
      beside: z.boolean(),
      nextStep: z.string().nullable(),
    })
    .nullable()
    .default(null),
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
      /** How it sends, where that is entered. */
      line: LineSettingsSchema.nullable(),
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
      /** What stays inside the laboratory. */
      insideWord: z.string().nullable(),
      /** Of this specimen alone, which can be voided; else of a whole oven or bath. */
      isOfTest: z.boolean(),
      /** In how many designs' reports it stands. */
      designs: z.number().int(),
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
  /** Of a component of a batch: the bag or container that it is weighed out of. Left out: of the sample, no bag named. */
  drawnFromId: IdSchema.optional(),
})
export type PostReading = z.infer<typeof PostReadingSchema>

export const CorrectReadingSchema = z.strictObject({
  id: IdSchema,
  typed: TypedSchema,
  reason: z.string().trim().min(1, 'Choose or write the reason').max(500),
  time: EventTimeSchema,
  /** Of a component of a batch: the bag it was, or null where it was none by name. Left out: as before. */
  drawnFromId: IdSchema.nullable().optional(),
})
export type CorrectReading = z.infer<typeof CorrectReadingSchema>

/** Takes back a reading right after it was entered: it was mistyped. It stays, struck through, and its slot is open again. */
export const WithdrawReadingSchema = z.strictObject({ id: IdSchema, time: EventTimeSchema })
export type WithdrawReading = z.infer<typeof WithdrawReadingSchema>

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

/** Puts a start or end at the time at which it really happened; the first stays on record. */
export const CorrectActSchema = z.strictObject({
  id: IdSchema,
  reason: z.string().trim().min(1, 'Give the reason of the correction').max(500),
  time: EventTimeSchema,
})
export type CorrectAct = z.infer<typeof CorrectActSchema>

export const VoidTestSchema = z.strictObject({ id: IdSchema, reason: TextSchema, time: EventTimeSchema })
export type VoidTest = z.infer<typeof VoidTestSchema>

/** Puts a spare in the place of a voided specimen. */
export const ReplaceTestSchema = z.strictObject({ spareTestId: IdSchema, reason: TextSchema })
export type ReplaceTest = z.infer<typeof ReplaceTestSchema>
