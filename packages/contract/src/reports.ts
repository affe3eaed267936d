import { z } from 'zod'
import { IdSchema, InstantSchema } from './common.ts'

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
  digest: z.string(),
  state: z.enum(['current', 'superseded', 'withdrawn']),
  replacedBy: z.string().nullable(),
  recordChanged: z.boolean(),
})
export type Report = z.infer<typeof ReportSchema>

/** Reports of one design, of one project, or all. */
export const ReportsQuerySchema = z.strictObject({ designId: IdSchema.optional(), projectId: IdSchema.optional() })
export type ReportsQuery = z.infer<typeof ReportsQuerySchema>

export const IssueReportSchema = z.strictObject({
  id: IdSchema,
  designId: IdSchema,
  revisionId: IdSchema,
  reason: z.string().trim().max(1000).optional(),
})
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
