import { z } from 'zod'
import { DaySchema, IdSchema, InstantSchema, PersonNameSchema, SupersedesSchema } from './common.ts'
import { checkMaker, MadeBySchema } from './made-by.ts'

/** One sieve: its opening in mm and what passes it in %, both as typed. */
export const SieveSchema = z.object({ size: z.string(), passing: z.string() })
export type Sieve = z.infer<typeof SieveSchema>

/** A gradation of the aggregate as it was found: entered, not computed here. */
export const GradationSchema = z.object({
  id: IdSchema,
  /** The widest first; empty where it stands in the file alone. */
  sieves: z.array(SieveSchema),
  madeBy: MadeBySchema,
  method: z.string(),
  edition: z.string(),
  source: z.string(),
  laboratoryName: z.string(),
  observedBy: z.string(),
  observedOn: DaySchema,
  remark: z.string(),
  attachment: z.object({ id: IdSchema, name: z.string(), mediaType: z.string(), sha256: z.string() }).nullable(),
  /** Number of the revision on which it was entered; it counts for that one and those after it. */
  revision: z.number().int(),
  by: PersonNameSchema,
  at: InstantSchema,
  /** What it replaces, and why. */
  supersedes: z.object({ id: IdSchema, sieves: z.array(SieveSchema), reason: z.string() }).nullable(),
})
export type Gradation = z.infer<typeof GradationSchema>

const short = z.string().trim().max(200)
const typed = (missing: string) => z.string().trim().min(1, missing).max(40)

export const EnterGradationSchema = z
  .strictObject({
    id: IdSchema,
    sieves: z
      .array(
        z.strictObject({
          size: typed('Give the opening of the sieve in mm'),
          passing: typed('Give what passes the sieve in %'),
        }),
      )
      .max(40)
      .default([]),
    madeBy: MadeBySchema,
    method: short.min(1, 'Name the method it was found by'),
    edition: short.default(''),
    source: z.string().trim().max(300).default(''),
    laboratoryName: short.default(''),
    observedBy: short.default(''),
    observedOn: DaySchema,
    remark: z.string().trim().max(1000).default(''),
    attachmentId: IdSchema.nullable().default(null),
    /** With the present one's id and a reason where it replaces one. */
    supersedes: SupersedesSchema.optional(),
  })
  .refine(({ sieves, attachmentId }) => sieves.length > 0 || attachmentId !== null, {
    path: ['sieves'],
    message: 'Type the sieves, or attach the file that holds them',
  })
  .superRefine(checkMaker)
export type EnterGradation = z.infer<typeof EnterGradationSchema>

/** A gradation as it is signed and printed; times and names as strings. */
export const SignedGradationSchema = z.object({
  sieves: z.array(SieveSchema),
  madeBy: MadeBySchema,
  /** Method and edition, who made it, what it was read from, by whom, its remark and file, in one line. */
  source: z.string(),
  observedOn: z.string(),
  by: z.string(),
})
export type SignedGradation = z.infer<typeof SignedGradationSchema>

/** What a gradation is called beside the properties of the panel. */
export const gradationLabel = 'Gradation of the aggregate'
