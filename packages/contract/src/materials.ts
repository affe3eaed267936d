import { z } from 'zod'
import { DaySchema, IdSchema, InstantSchema } from './common.ts'

export const MaterialKindSchema = z.enum(['aggregate', 'emulsion', 'filler', 'additive', 'water'])
export type MaterialKind = z.infer<typeof MaterialKindSchema>

export const MaterialsQuerySchema = z.strictObject({ kind: MaterialKindSchema.optional() })

/** A sample of a material as received: the head of every specimen's family tree. */
export const MaterialSchema = z.object({
  id: IdSchema,
  /** The laboratory's code for the sample. */
  code: z.string(),
  kind: MaterialKindSchema,
  /** What it is: "Type II aggregate, crushed". */
  name: z.string(),
  /** Where it comes from (quarry, plant). */
  sourceName: z.string(),
  supplier: z.string(),
  lot: z.string(),
  receivedOn: DaySchema,
  note: z.string(),
  createdAt: InstantSchema,
})
export type Material = z.infer<typeof MaterialSchema>

export const CreateMaterialSchema = z.strictObject({
  id: IdSchema,
  kind: MaterialKindSchema,
  name: z.string().trim().min(1, 'Say what the material is').max(200),
  sourceName: z.string().trim().min(1, 'Say where the material comes from').max(200),
  supplier: z.string().trim().max(200).default(''),
  lot: z.string().trim().max(100).default(''),
  receivedOn: DaySchema,
  note: z.string().trim().max(2000).default(''),
})
export type CreateMaterial = z.infer<typeof CreateMaterialSchema>
