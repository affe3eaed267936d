import { z } from 'zod'
import {
  DaySchema,
  DigitsSchema,
  GivenDigitsSchema,
  IdSchema,
  InstantSchema,
  PersonNameSchema,
  SupersedesSchema,
} from './common.ts'

export const InstrumentKindSchema = z.enum([
  'balance',
  'wet-track-machine',
  'loaded-wheel',
  'cohesion-tester',
  'oven',
  'bath',
  'thermometer',
  'timer',
])

/** A machine's factor as published, in one unit, from a date on. */
export const InstrumentFactorSchema = z.object({
  id: IdSchema,
  key: z.enum(['area', 'frame']),
  typed: z.string(),
  value: DigitsSchema,
  unit: z.string(),
  measuredAreaCm2: DigitsSchema.nullable(),
  edition: z.string(),
  effectiveFrom: DaySchema,
  current: z.boolean(),
  /** Said where the factor and the measured area, or the class table, disagree by more than 2 %. */
  warnings: z.array(z.string()),
  by: PersonNameSchema,
  at: InstantSchema,
  reason: z.string().nullable(),
})
export type InstrumentFactor = z.infer<typeof InstrumentFactorSchema>

export const CalibrationSchema = z.object({
  id: IdSchema,
  doneOn: DaySchema,
  validUntil: DaySchema,
  certificate: z.string(),
  passed: z.boolean(),
})
export type Calibration = z.infer<typeof CalibrationSchema>

export const InstrumentSchema = z.object({
  id: IdSchema,
  code: z.string(),
  kind: InstrumentKindSchema,
  name: z.string(),
  serial: z.string(),
  place: z.string(),
  capacity: DigitsSchema.nullable(),
  capacityUnit: z.string().nullable(),
  resolution: DigitsSchema.nullable(),
  /** `due`: its calibration ends within 30 days or has ended; `out`: taken out of service, or its last calibration failed. */
  state: z.enum(['in-service', 'due', 'out']),
  version: z.number().int(),
  factors: z.array(InstrumentFactorSchema),
  calibrations: z.array(CalibrationSchema),
})
export type Instrument = z.infer<typeof InstrumentSchema>

export const CreateInstrumentSchema = z.strictObject({
  id: IdSchema,
  code: z.string().trim().min(1, 'Give the code on its label').max(20),
  kind: InstrumentKindSchema,
  name: z.string().trim().min(1, 'Describe it by size and use').max(200),
  serial: z.string().trim().max(100).default(''),
  place: z.string().trim().max(100).default(''),
  capacity: GivenDigitsSchema.nullable().default(null),
  capacityUnit: z.string().nullable().default(null),
  resolution: GivenDigitsSchema.nullable().default(null),
})
export type CreateInstrument = z.infer<typeof CreateInstrumentSchema>

/** Only what changes; `out` takes it out of service, `in-service` brings it back. What it is changes with a reason only. */
export const UpdateInstrumentSchema = z.strictObject({
  name: z.string().trim().min(1, 'Describe it by size and use').max(200).optional(),
  serial: z.string().trim().max(100).optional(),
  place: z.string().trim().max(100).optional(),
  capacity: GivenDigitsSchema.nullable().optional(),
  capacityUnit: z.string().nullable().optional(),
  resolution: GivenDigitsSchema.nullable().optional(),
  state: z.enum(['in-service', 'out']).optional(),
  reason: z.string().trim().max(500).optional(),
})
export type UpdateInstrument = z.infer<typeof UpdateInstrumentSchema>

export const AddFactorSchema = z.strictObject({
  id: IdSchema,
  key: z.enum(['area', 'frame']),
  typed: z.string().trim().min(1, 'Enter the factor, like 32.9').max(40),
  unit: z.enum(['g/m²', 'g/ft²']),
  measuredAreaCm2: GivenDigitsSchema.nullable().default(null),
  edition: z.string().trim().min(1, 'Name the edition the factor is taken from').max(200),
  effectiveFrom: DaySchema,
  /** With the reason where it replaces the factor of the same unit. */
  supersedes: SupersedesSchema.optional(),
})
export type AddFactor = z.infer<typeof AddFactorSchema>

export const AddCalibrationSchema = z.strictObject({
  id: IdSchema,
  doneOn: DaySchema,
  validUntil: DaySchema,
  certificate: z.string().trim().min(1, 'Enter the certificate’s number').max(200),
  passed: z.boolean(),
})
export type AddCalibration = z.infer<typeof AddCalibrationSchema>
