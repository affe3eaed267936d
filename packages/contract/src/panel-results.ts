import { z } from 'zod'
import {
  DaySchema,
  DigitsSchema,
  GivenDigitsSchema,
  IdSchema,
  InstantSchema,
  PersonNameSchema,
  SupersedesSchema,
  TypedSchema,
} from './common.ts'
import { checkMaker, MadeBySchema } from './made-by.ts'

/** A result of the panel that no method here computes: entered with what it was found by. */
export const PanelResultSchema = z.object({
  id: IdSchema,
  /** The property, as the specification's limit names it. */
  limitKey: z.string(),
  /** As typed, in the unit that it was found in. */
  typed: z.string(),
  value: DigitsSchema,
  unit: z.string(),
  madeBy: MadeBySchema,
  /** Designation and edition of the method, as typed. */
  method: z.string(),
  edition: z.string(),
  /** Report, certificate or notebook page. */
  source: z.string(),
  laboratoryName: z.string(),
  instrument: z.string(),
  observedBy: z.string(),
  observedOn: DaySchema,
  /** Emulsion content of the mix that was tested, % of dry aggregate; null for what depends on no content. */
  atEmulsionPercent: DigitsSchema.nullable(),
  remark: z.string(),
  attachment: z.object({ id: IdSchema, name: z.string(), mediaType: z.string(), sha256: z.string() }).nullable(),
  /** Number of the revision on which it was entered; it counts for that one and those after it. */
  revision: z.number().int(),
  by: PersonNameSchema,
  at: InstantSchema,
  supersedes: z.object({ id: IdSchema, typed: z.string(), unit: z.string(), reason: z.string() }).nullable(),
})
export type PanelResult = z.infer<typeof PanelResultSchema>

const short = z.string().trim().max(200)

export const EnterPanelResultSchema = z
  .strictObject({
    id: IdSchema,
    limitKey: z.string().min(1).max(100),
    typed: TypedSchema,
    unit: z.string().min(1).max(40),
    madeBy: MadeBySchema,
    method: short.min(1, 'Name the method it was found by, like TB-113'),
    edition: short.default(''),
    source: z.string().trim().max(300).default(''),
    laboratoryName: short.default(''),
    instrument: short.default(''),
    observedBy: short.default(''),
    observedOn: DaySchema,
    atEmulsionPercent: GivenDigitsSchema.nullable().default(null),
    remark: z.string().trim().max(1000).default(''),
    attachmentId: IdSchema.nullable().default(null),
    /** With the present value's id and a reason where it replaces one. */
    supersedes: SupersedesSchema.optional(),
  })
  .superRefine(checkMaker)
export type EnterPanelResult = z.infer<typeof EnterPanelResultSchema>
