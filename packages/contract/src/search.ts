import { z } from 'zod'
import { IdSchema } from './common.ts'

/** What a person types to find something of the laboratory. */
export const SearchQuerySchema = z.strictObject({ q: z.string().trim().min(2, 'Type at least two signs').max(100) })

/** One thing found, and why: in which of its fields the words stand. */
export const FoundSchema = z.object({
  kind: z.enum(['specimen', 'sample', 'project', 'design', 'person']),
  /** Of a specimen its test, which is what opens. */
  id: IdSchema,
  title: z.string(),
  /** What it belongs to. */
  under: z.string(),
  why: z.enum(['code', 'label', 'name', 'lot', 'supplier', 'client', 'initials']),
  /** The field in which it was found, whole. */
  matched: z.string(),
})
export type Found = z.infer<typeof FoundSchema>
/** The best first: what is exactly so, then what begins so, then what has it somewhere. */
export const SearchAnswerSchema = z.object({ items: z.array(FoundSchema) })
export type SearchAnswer = z.infer<typeof SearchAnswerSchema>
