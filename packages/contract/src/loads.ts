import { z } from 'zod'
import { EventTimeSchema, IdSchema, InstantSchema, PersonNameSchema, TypedSchema } from './common.ts'
import { BulkOutcomeSchema } from './schedule.ts'

/** A specimen that stands in an oven or bath, of whatever project. */
export const StandingSpecimenSchema = z.object({
  testId: IdSchema,
  code: z.string(),
  label: z.string(),
  designId: IdSchema.nullable(),
  designName: z.string().nullable(),
  methodName: z.string(),
  stepKey: z.string(),
  stepTitle: z.string(),
  since: InstantSchema,
  /** Taking it out is confirmed here; a soak ends with the run at the bench. */
  endsHere: z.boolean(),
  opensAt: InstantSchema.nullable(),
  closesAt: InstantSchema.nullable(),
  /** For what to weigh: the content, % emulsion. */
  emulsionPercent: z.string().nullable(),
})
export type StandingSpecimen = z.infer<typeof StandingSpecimenSchema>

export const LoadReadingSchema = z.object({
  id: IdSchema,
  typed: z.string(),
  unit: z.string(),
  at: InstantSchema,
  by: PersonNameSchema,
  /** What it was read with, where that was said. */
  instrument: z.object({ id: IdSchema, code: z.string() }).nullable(),
  /** Kept, and does not count until it is released: why, and who can release it. */
  waits: z.string().nullable(),
  /** Decided to be left out: kept, and never counts. */
  leftOut: z.boolean(),
})
export type LoadReading = z.infer<typeof LoadReadingSchema>

/** A check specimen of a load, weighed warm against warm. */
export const CheckSpecimenSchema = z.object({
  testId: IdSchema,
  code: z.string(),
  label: z.string(),
  weighings: z.array(LoadReadingSchema),
  /** `held`: nothing that was weighed counts. */
  state: z.enum(['one', 'changing', 'constant', 'held']),
  sentence: z.string(),
})
export type CheckSpecimen = z.infer<typeof CheckSpecimenSchema>

export const LoadSchema = z.object({
  id: IdSchema,
  kind: z.enum(['oven', 'bath']),
  instrumentId: IdSchema,
  openedAt: InstantSchema,
  by: PersonNameSchema,
  specimens: z.array(StandingSpecimenSchema),
  temperatures: z.array(LoadReadingSchema),
  checks: z.array(CheckSpecimenSchema),
  /** Whether its specimens are dry, and why; null where no edition asks for it. */
  constantMass: z.object({ reached: z.boolean(), sentence: z.string() }).nullable(),
})
export type Load = z.infer<typeof LoadSchema>

/** What stands where now, from all projects, and what waits to go in. */
export const OvensSchema = z.object({
  now: InstantSchema,
  instruments: z.array(
    z.object({
      id: IdSchema,
      code: z.string(),
      name: z.string(),
      kind: z.enum(['oven', 'bath']),
      /** Why what is put in today would wait for release, since when, and who can put it right. */
      fault: z.string().nullable(),
      loads: z.array(LoadSchema),
      /** Put in at the bench, with this instrument named and no load. */
      alone: z.array(StandingSpecimenSchema),
    }),
  ),
  /** Balances and thermometers for what is read of a load; `fault`: why it would wait for release today. */
  readers: z.array(
    z.object({
      id: IdSchema,
      code: z.string(),
      name: z.string(),
      kind: z.enum(['balance', 'thermometer']),
      fault: z.string().nullable(),
    }),
  ),
  waiting: z.array(StandingSpecimenSchema.omit({ since: true }).extend({ kind: z.enum(['oven', 'bath']) })),
  /** In an oven or bath by their acts, but of no load: which one nobody said. */
  unplaced: z.array(StandingSpecimenSchema.extend({ kind: z.enum(['oven', 'bath']) })),
})
export type Ovens = z.infer<typeof OvensSchema>

export const OpenLoadSchema = z.strictObject({ id: IdSchema, instrumentId: IdSchema, time: EventTimeSchema })
export type OpenLoad = z.infer<typeof OpenLoadSchema>

const TemperatureReadSchema = z.strictObject({
  id: IdSchema,
  typed: TypedSchema,
  instrumentId: IdSchema.nullable().default(null),
})

const MoveSchema = z.strictObject({
  rows: z
    .array(z.strictObject({ id: IdSchema, testId: IdSchema, stepKey: z.string() }))
    .min(1, 'Choose at least one specimen')
    .max(200),
  time: EventTimeSchema,
  temperature: TemperatureReadSchema.nullable().default(null),
})

/** One confirmation for many specimens; each keeps its own act. */
export const PutInSchema = MoveSchema.extend({
  /** The oven or bath that the load stands in: where there is no such load yet it is opened with what goes in. */
  opens: IdSchema.nullable().default(null),
})
export type PutIn = z.infer<typeof PutInSchema>

export const TakeOutSchema = MoveSchema.extend({
  /** Why it is let out without constant mass, where it is. */
  word: z.string().trim().max(500).default(''),
})
export type TakeOut = z.infer<typeof TakeOutSchema>

export const LoadMovedSchema = z.object({
  outcome: BulkOutcomeSchema,
  load: LoadSchema,
  /** Set when the load was let out without constant mass: kept, and to be decided. */
  deviationId: IdSchema.nullable(),
})
export type LoadMoved = z.infer<typeof LoadMovedSchema>

/** A temperature of the load, or a check specimen weighed warm. */
export const ReadLoadSchema = z
  .strictObject({
    id: IdSchema,
    key: z.enum(['temperature', 'warm-mass']),
    testId: IdSchema.nullable().default(null),
    typed: TypedSchema,
    instrumentId: IdSchema.nullable().default(null),
    time: EventTimeSchema,
    /** The reading whose slip it puts right; the first stays on record, and so does its time. */
    supersedes: z
      .strictObject({ id: IdSchema, reason: z.string().trim().min(1, 'Give the reason of the correction').max(500) })
      .nullable()
      .default(null),
  })
  .refine(({ key, testId }) => (key === 'warm-mass') === (testId !== null), {
    path: ['testId'],
    message: 'Choose the check specimen that was weighed',
  })
export type ReadLoad = z.infer<typeof ReadLoadSchema>
