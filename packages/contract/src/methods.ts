import { z } from 'zod'
import { DaySchema, DigitsSchema, GivenDigitsSchema, IdSchema, InstantSchema } from './common.ts'
import { CalculationSchema } from './results.ts'

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
  /**
   * `in-force`: tests made now are pinned to it. `waiting`: its day is still to come. `replaced`: another was made from it, or
   * ships in its place. `beside`: in effect, and another one comes first; to work by it, make one of your own from it.
   */
  standing: z.enum(['in-force', 'waiting', 'replaced', 'beside']),
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
  /** `series`: planned at each content, for a curve; `panel`: at one content, beside the series. */
  place: z.enum(['series', 'panel']),
  madeFrom: z.enum(['batch', 'materials']),
  answers: z.array(z.object({ property: z.string(), soak: z.string().optional(), result: z.string() })),
  results: z.array(
    z.object({
      key: z.string(),
      label: z.string(),
      unit: z.string().optional(),
      displayDecimals: z.number().int(),
      choices: z.array(z.object({ key: z.string(), label: z.string() })).optional(),
      reporting: z.object({ words: z.string(), source: z.string() }).optional(),
    }),
  ),
  computation: z.number().int(),
  steps: z.array(z.any()),
  windows: z.array(z.any()),
  /** Built-in values by the key of their edition, shown beside whatever a laboratory changed. */
  builtIn: z.record(z.string(), z.record(z.string(), EditionParameterSchema)),
  editions: z.array(EditionSchema),
})
export type Method = z.infer<typeof MethodSchema>

/** A reference case of a method, computed by this installation: how readings become a result, line by line. */
export const WorkedExampleSchema = z.object({
  title: z.string(),
  /** `published`: from a document; `constructed`: arithmetic done for the purpose; `invented`: a made-up design. */
  kind: z.enum(['published', 'constructed', 'invented']),
  source: z.string(),
  designation: z.string(),
  year: z.string(),
  inputs: z.array(z.object({ name: z.string(), value: z.string(), unit: z.string().nullable() })),
  results: z.array(
    z.object({
      key: z.string(),
      label: z.string(),
      value: z.string().nullable(),
      unit: z.string().nullable(),
      displayDecimals: z.number().int(),
      choice: z.string().nullable(),
      calculation: CalculationSchema,
    }),
  ),
  others: z.number().int(),
})
/** Null where no case of the method gives a result. */
export const MethodExampleSchema = z.object({ example: WorkedExampleSchema.nullable() })
export type MethodExample = z.infer<typeof MethodExampleSchema>

/**
 * A laboratory's own edition: a copy of another with bounds changed. Without any change it is worked by as it stands, which
 * is how an edition that is not in force is chosen.
 */
export const CreateEditionSchema = z.strictObject({
  id: IdSchema,
  copiedFrom: IdSchema,
  changes: z.array(
    z.strictObject({
      parameter: z.string(),
      value: GivenDigitsSchema,
      source: z.string().trim().min(1, 'Name the source of the new value').max(300),
      certainty: CertaintySchema,
    }),
  ),
  effectiveFrom: DaySchema,
  reason: z.string().trim().min(1, 'Give the reason of the change').max(500),
})
export type CreateEdition = z.infer<typeof CreateEditionSchema>
