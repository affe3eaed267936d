import { z } from 'zod'
import { AddCalibrationSchema, AddFactorSchema, CreateInstrumentSchema } from './instruments.ts'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'

/** A fault of the file: its line, the head of the column where it is one of a column, and what would be right. */
export const ImportFaultSchema = z.object({
  line: z.number().int(),
  column: z.string().nullable(),
  message: z.string(),
})
export type ImportFault = z.infer<typeof ImportFaultSchema>

/** An instrument as a line of the file says it, with its calibration and factor where it says them. */
export const ImportRowSchema = z.object({
  line: z.number().int(),
  instrument: CreateInstrumentSchema.omit({ id: true }),
  calibration: AddCalibrationSchema.omit({ id: true }).nullable(),
  factor: AddFactorSchema.omit({ id: true, supersedes: true }).nullable(),
})
export type ImportRow = z.infer<typeof ImportRowSchema>

const ContentSchema = z.string().min(1, 'Choose a file: this one is empty').max(500_000, 'The file is too large')

/** Reads a file and says what an import would make of it; nothing is stored. */
export const PreviewImportSchema = z.strictObject({ content: ContentSchema })
export type PreviewImport = z.infer<typeof PreviewImportSchema>
export const ImportPreviewSchema = z.object({
  /** Lines without a fault, in the order of the file. */
  rows: z.array(ImportRowSchema),
  faults: z.array(ImportFaultSchema),
})
export type ImportPreview = z.infer<typeof ImportPreviewSchema>

/** Brings in all of a file, or nothing where a line has a fault. */
export const ImportInstrumentsSchema = z.strictObject({
  id: IdSchema,
  fileName: z.string().trim().min(1).max(200),
  content: ContentSchema,
})
export type ImportInstruments = z.infer<typeof ImportInstrumentsSchema>

export const InstrumentImportSchema = z.object({
  id: IdSchema,
  fileName: z.string(),
  by: PersonNameSchema,
  at: InstantSchema,
  instruments: z.array(z.object({ id: IdSchema, code: z.string(), name: z.string(), line: z.number().int() })),
  /** Taken back as a whole; null while it stands. */
  takenBack: z.object({ by: PersonNameSchema, at: InstantSchema, reason: z.string() }).nullable(),
})
export type InstrumentImport = z.infer<typeof InstrumentImportSchema>

export const TakeBackImportSchema = z.strictObject({
  id: IdSchema,
  reason: z.string().trim().min(1, 'Give the reason, like “Wrong file”').max(500),
})
export type TakeBackImport = z.infer<typeof TakeBackImportSchema>
