import { z } from 'zod'
import { DaySchema, DigitsSchema, IdSchema, InstantSchema } from './common.ts'

export const CertaintySchema = z.enum(['published', 'common practice', 'from memory'])

export const EditionParameterSchema = z.object({
  value: DigitsSchema,
  unit: z.string(),
  label: z.string(),
  source: z.string(),
  clause: z.string().optional(),
  certainty: CertaintySchema,
})
export const EditionSchema = z.object({
  id: IdSchema,
  methodKey: z.string(),
  editionKey: z.string(),
  revision: z.number().int(),
  origin: z.enum(['built-in', 'laboratory']),
  designation: z.string(),
  year: z.string(),
  effectiveFrom: DaySchema,
  reason: z.string().nullable(),
  /** Edition that tests made now are pinned to. */
  inForce: z.boolean(),
  /** Another edition was made from it; that one is to be changed next. */
  superseded: z.boolean(),
  parameters: z.record(z.string(), EditionParameterSchema),
  at: InstantSchema,
})
export type Edition = z.infer<typeof EditionSchema>

export const MethodSchema = z.object({
  key: z.string(),
  name: z.string(),
  shortName: z.string(),
  form: z.string(),
  computation: z.number().int(),
  steps: z.array(z.any()),
  windows: z.array(z.any()),
  /** The built-in values, shown beside whatever a laboratory changed. */
  builtIn: z.record(z.string(), EditionParameterSchema),
  editions: z.array(EditionSchema),
})
export type Method = z.infer<typeof MethodSchema>

/** A laboratory's own edition: a copy of one in force with one or more bounds changed. */
export const CreateEditionSchema = z.strictObject({
  id: IdSchema,
  copiedFrom: IdSchema,
  changes: z
    .array(
      z.strictObject({
        parameter: z.string(),
        value: DigitsSchema,
        source: z.string().trim().min(1, 'Name the source of the new value').max(300),
        certainty: CertaintySchema,
      }),
    )
    .min(1, 'Change at least one bound'),
  effectiveFrom: DaySchema,
  reason: z.string().trim().min(1, 'Give the reason of the change').max(500),
})
export type CreateEdition = z.infer<typeof CreateEditionSchema>
