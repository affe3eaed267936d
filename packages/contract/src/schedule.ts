import { z } from 'zod'
import { DaySchema, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { ItemFormSchema } from './item-forms.ts'

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
  form: ItemFormSchema,
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

/** Asks what speaks against an assignment; nothing is changed. */
export const AssignmentCheckSchema = AssignSchema.omit({ reason: true })
export type AssignmentCheck = z.infer<typeof AssignmentCheckSchema>

const NamedTestsSchema = z.array(z.object({ id: IdSchema, label: z.string(), code: z.string() }))
/** What speaks against giving tests to a person. Only `refused` and `begun` bind; the others are a manager’s to weigh. */
export const AssignmentConflictSchema = z.discriminatedUnion('kind', [
  /** Nothing is left to do: the assignment will refuse them. */
  z.object({ kind: z.literal('refused'), sentence: z.string(), tests: NamedTestsSchema }),
  /** Somebody else has begun them: a reason is asked. */
  z.object({ kind: z.literal('begun'), tests: NamedTestsSchema }),
  z.object({ kind: z.literal('not-authorised'), sentence: z.string(), tests: NamedTestsSchema }),
  /** The window of the next act closes (or opens, where nothing closes it) on a day when nobody works. */
  z.object({ kind: z.literal('closed-day'), day: DaySchema, tests: NamedTestsSchema }),
  /** With what the person has already, a day’s hands-on work is longer than a shift. */
  z.object({ kind: z.literal('over-shift'), day: DaySchema, minutes: z.number(), shiftMinutes: z.number() }),
  /** In this stretch one person’s windows ask for more hands-on work than it has minutes. */
  z.object({
    kind: z.literal('crowded'),
    from: InstantSchema,
    to: InstantSchema,
    minutes: z.number(),
    tests: NamedTestsSchema,
  }),
  /** Windows of other steps that the person has at the same time. */
  z.object({ kind: z.literal('overlap'), steps: z.array(z.string()) }),
])
export type AssignmentConflict = z.infer<typeof AssignmentConflictSchema>
export const AssignmentConflictsSchema = z.object({ conflicts: z.array(AssignmentConflictSchema) })
export type AssignmentConflicts = z.infer<typeof AssignmentConflictsSchema>
