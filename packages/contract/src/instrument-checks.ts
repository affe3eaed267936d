import { z } from 'zod'
import { CheckChartSchema } from './check-charts.ts'
import { EventTimeSchema, IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { checkKinds, checkUnitNames } from './instrument-check-kinds.ts'

export const CheckKindSchema = z.enum(checkKinds, 'Choose what was checked')
export const CheckUnitSchema = z.enum(checkUnitNames, 'Choose the unit')

/** Within what a check passes, and where that stands. */
export const CheckBoundsSchema = z.object({
  nominal: z.string(),
  tolerance: z.string(),
  unit: z.string(),
  source: z.string(),
})
export type CheckBounds = z.infer<typeof CheckBoundsSchema>

export const InstrumentCheckSchema = z.object({
  id: IdSchema,
  kind: CheckKindSchema,
  /** As typed, in the unit of its bounds. */
  typed: z.string(),
  bounds: CheckBoundsSchema,
  passed: z.boolean(),
  /** What it was checked with: a mass, a scale, a thermometer. */
  reference: z.string().nullable(),
  note: z.string().nullable(),
  by: PersonNameSchema,
  checkedAt: InstantSchema,
  supersedes: z.object({ id: IdSchema, reason: z.string() }).nullable(),
  superseded: z.boolean(),
})
export type InstrumentCheck = z.infer<typeof InstrumentCheckSchema>

/** Checks of an instrument, the latest first, with the bounds of a load check where an edition states them. */
export const InstrumentChecksSchema = z.object({
  items: z.array(InstrumentCheckSchema),
  loadBounds: CheckBoundsSchema.nullable(),
  /** What was checked more than once against one nominal value, over time. */
  charts: z.array(CheckChartSchema),
  next: z.null(),
})
export type InstrumentChecks = z.infer<typeof InstrumentChecksSchema>

export const AddCheckSchema = z.strictObject({
  id: IdSchema,
  kind: CheckKindSchema,
  typed: z.string().trim().min(1, 'Enter what was read').max(40),
  /** Absent for the load of a loaded wheel, which is judged by the edition in force. */
  bounds: z
    .strictObject({
      nominal: z.string().trim().min(1, 'Enter what it should be').max(40),
      tolerance: z.string().trim().min(1, 'Enter by how much it may differ').max(40),
      unit: CheckUnitSchema,
      source: z.string().trim().min(1, 'Say where these stand').max(200),
    })
    .optional(),
  reference: z.string().trim().max(200).nullable().default(null),
  time: EventTimeSchema,
  supersedes: z
    .strictObject({ id: IdSchema, reason: z.string().trim().min(1, 'Give the reason of the correction').max(500) })
    .optional(),
})
export type AddCheck = z.infer<typeof AddCheckSchema>
