import { z } from 'zod'
import { IdSchema, InstantSchema } from './common.ts'
import { ExpectedDaySchema } from './expected-days.ts'
import { QuestionSchema } from './questions.ts'

export const ReportSchema = z.object({
  id: IdSchema,
  number: z.string(),
  amendment: z.number().int(),
  projectId: IdSchema,
  projectName: z.string(),
  designId: IdSchema,
  designName: z.string(),
  revision: z.number().int(),
  issuedAt: InstantSchema,
  approvedBy: z.string(),
  /** SHA-256 of the signed content, hex. */
  digest: z.string(),
  /** SHA-256 of the PDF, hex. */
  fileDigest: z.string(),
  state: z.enum(['current', 'superseded', 'withdrawn']),
  replacedBy: z.string().nullable(),
  recordChanged: z.boolean(),
})
export type Report = z.infer<typeof ReportSchema>

/** Reports of one design, of one project, or all. */
export const ReportsQuerySchema = z.strictObject({ designId: IdSchema.optional(), projectId: IdSchema.optional() })
export type ReportsQuery = z.infer<typeof ReportsQuerySchema>

/** Asks for the report as it would be issued; an amendment of the same revision says why. */
export const PreviewReportSchema = z.strictObject({
  id: IdSchema,
  designId: IdSchema,
  revisionId: IdSchema,
  reason: z.string().trim().max(1000).optional(),
})
export type PreviewReport = z.infer<typeof PreviewReportSchema>

/** A report as it would be issued: its file is kept, and issuing releases exactly that file. Nothing of it is released yet. */
export const ReportPreviewSchema = z.object({
  id: IdSchema,
  designId: IdSchema,
  revisionId: IdSchema,
  revision: z.number().int(),
  /** The number that it gets if no other report is issued before. */
  number: z.string(),
  amendment: z.number().int(),
  reason: z.string().nullable(),
  madeAt: InstantSchema,
  /** SHA-256 of the signed content, hex. */
  digest: z.string(),
  /** SHA-256 of the file, hex: the issued report has the same. */
  fileDigest: z.string(),
  bytes: z.number().int(),
  /** Out of date: what would be printed today is something else, and `sentence` says what. */
  state: z.enum(['ready', 'out-of-date', 'issued']),
  sentence: z.string(),
})
export type ReportPreview = z.infer<typeof ReportPreviewSchema>

/** Releases the file of a preview, byte for byte. */
export const IssueReportSchema = z.strictObject({ id: IdSchema, previewId: IdSchema })
export type IssueReport = z.infer<typeof IssueReportSchema>

/** The public page behind the QR or check code: genuine and current, or not. No result values. */
export const ReportCheckSchema = z.object({
  genuine: z.boolean(),
  state: z.enum(['current', 'superseded', 'withdrawn', 'unknown']),
  sentence: z.string(),
  number: z.string().nullable(),
  laboratory: z.string().nullable(),
  issuedAt: InstantSchema.nullable(),
  digest: z.string().nullable(),
})
export type ReportCheck = z.infer<typeof ReportCheckSchema>

/** What a client sees of a project: plain words, no values. */
export const ClientProjectSchema = z.object({
  id: IdSchema,
  name: z.string(),
  status: z.string(),
  next: z.string(),
  testsDone: z.number().int(),
  testsTotal: z.number().int(),
  askWhom: z.string(),
  /** What the results are judged by: name and version alone. Null where none is set. */
  specification: z.object({ name: z.string(), version: z.number().int() }).nullable(),
  /** When the report is expected, the newest first: the first one stands, those behind it were told before. Empty once it is issued. */
  expected: z.array(ExpectedDaySchema),
  /** What the client asked about this project, with the laboratory's answers. */
  questions: z.array(QuestionSchema),
  reports: z.array(
    z.object({
      id: IdSchema,
      number: z.string(),
      designName: z.string(),
      issuedAt: InstantSchema,
      state: z.enum(['current', 'superseded', 'withdrawn']),
      replacedBy: z.string().nullable(),
    }),
  ),
})
export const ClientProjectsSchema = z.object({ renewedAt: InstantSchema, projects: z.array(ClientProjectSchema) })
export type ClientProjects = z.infer<typeof ClientProjectsSchema>
export type ClientProject = z.infer<typeof ClientProjectSchema>
