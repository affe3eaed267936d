import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'

export const UrgencySchema = z.enum(['late', 'closing', 'open', 'opens-later', 'any-time'])
export type Urgency = z.infer<typeof UrgencySchema>

/** One test as the manager sees it: where it stands, whose it is, when its next window closes. */
export const ScheduleRowSchema = z.object({
  testId: IdSchema,
  itemId: IdSchema,
  code: z.string(),
  label: z.string(),
  designId: IdSchema,
  designName: z.string(),
  projectName: z.string(),
  /** Form of the specimen: its batch stands in the same row until it is cast. */
  form: z.enum(['disc', 'strip', 'biscuit', 'pill']),
  methodKey: z.string(),
  methodName: z.string(),
  /** The next act; both null where nothing is left to do but what holds the test. */
  stepKey: z.string().nullable(),
  act: z.enum(['start', 'end', 'reading']).nullable(),
  stepTitle: z.string(),
  opensAt: InstantSchema.nullable(),
  closesAt: InstantSchema.nullable(),
  urgency: UrgencySchema,
  assignee: PersonNameSchema.nullable(),
  started: z.boolean(),
  /** What only a person can settle: an undecided deviation, or a void specimen whose spare stands ready. */
  held: z.enum(['decision', 'spare']).nullable(),
})
export type ScheduleRow = z.infer<typeof ScheduleRowSchema>

export const ScheduleSchema = z.object({
  /** The laboratory’s clock as the rows were read. */
  now: InstantSchema,
  rows: z.array(ScheduleRowSchema),
  counts: z.object({
    late: z.number().int(),
    dueToday: z.number().int(),
    /** Begun and past the window with nothing done, or held by a decision or a spare. */
    stuck: z.number().int(),
    unassigned: z.number().int(),
    /** Tests with a deviation that nobody has decided. */
    waitingDecision: z.number().int(),
    /** Undecided deviations of no test: of a bath, an oven, a design. They are no rows here. */
    decisionsElsewhere: z.number().int(),
  }),
  people: z.array(PersonNameSchema.extend({ assigned: z.number().int() })),
})
export type Schedule = z.infer<typeof ScheduleSchema>

/** Assigns one or many tests. Needs an Idempotency-Key. The batch of a specimen goes with it. */
export const AssignSchema = z.strictObject({
  testIds: z.array(IdSchema).min(1).max(500),
  to: IdSchema.nullable(),
  reason: z.string().trim().max(500).optional(),
})
export type Assign = z.infer<typeof AssignSchema>

export const RowOutcomeSchema = z.object({
  id: IdSchema,
  outcome: z.enum(['done', 'refused']),
  sentence: z.string().nullable(),
})
export const BulkOutcomeSchema = z.object({ rows: z.array(RowOutcomeSchema) })
export type BulkOutcome = z.infer<typeof BulkOutcomeSchema>
