import { z } from 'zod'
import { IdSchema, InstantSchema, OptionalTextSchema } from './common.ts'

/** Who the laboratory works for: contractor, producer or road owner. */
export const ClientSchema = z.object({ id: IdSchema, name: z.string(), contact: z.string(), address: z.string() })
export type Client = z.infer<typeof ClientSchema>

const nameOf = (what: string) => z.string().trim().min(1, `Enter the ${what}`).max(200)

export const CreateClientSchema = z.strictObject({
  id: IdSchema,
  name: nameOf('client’s name'),
  contact: z.string().trim().max(500).default(''),
  address: z.string().trim().max(1000).default(''),
})
export type CreateClient = z.infer<typeof CreateClientSchema>

/** Kind of job: a full binder series, or one content to be verified. */
export const JobKindSchema = z.enum(['full', 'verification'])
export type JobKind = z.infer<typeof JobKindSchema>

export const DesignStateSchema = z.enum(['draft', 'in-work', 'in-review', 'sent-back', 'approved'])
export type DesignState = z.infer<typeof DesignStateSchema>

export const ProjectSchema = z.object({
  id: IdSchema,
  /** The laboratory's number of the project. */
  code: z.string(),
  clientId: IdSchema,
  clientName: z.string(),
  name: z.string(),
  kind: JobKindSchema,
  reportTo: z.string(),
  copiesTo: z.string(),
  version: z.number().int(),
  createdAt: InstantSchema,
  designs: z.array(z.object({ id: IdSchema, name: z.string(), revision: z.number().int(), state: DesignStateSchema })),
})
export type Project = z.infer<typeof ProjectSchema>

export const CreateProjectSchema = z.strictObject({
  id: IdSchema,
  clientId: IdSchema,
  name: nameOf('project’s name'),
  kind: JobKindSchema,
  reportTo: z.string().trim().max(500).default(''),
  copiesTo: z.string().trim().max(500).default(''),
})
export type CreateProject = z.infer<typeof CreateProjectSchema>

export const UpdateProjectSchema = z.strictObject({
  name: nameOf('project’s name').optional(),
  reportTo: OptionalTextSchema,
  copiesTo: OptionalTextSchema,
})
export type UpdateProject = z.infer<typeof UpdateProjectSchema>
