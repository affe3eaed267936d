import { z } from 'zod'
import { IdSchema, InstantSchema, PersonNameSchema } from './common.ts'
import { ComparedPartSchema } from './compared.ts'
import { DesignStateSchema } from './projects.ts'
import { RecommendationSchema } from './recommendations.ts'

/** One thing to be seen before signing: a void, a deviation, a late finding, a correction, too few replicates, a missing test. */
export const ReviewPointSchema = z.object({
  key: z.string(),
  kind: z.enum([
    'void',
    'deviation',
    'finding',
    'correction',
    'taken-back',
    'few-replicates',
    'not-tested',
    'unfinished',
    'flag',
    'refused-result',
    'device-clock',
    'entered',
    'odd',
    'part-change',
    'observation',
    'outside-method',
    'gradation',
    'specification',
  ]),
  sentence: z.string(),
  /** The specimen in words, for a list of several: "12-1 (7KD2), Wet track abrasion, 1-hour soak". */
  name: z.string().nullable(),
  code: z.string().nullable(),
  testId: IdSchema.nullable(),
  /** What leaving its specimen out would do to the range; null for a point about no single specimen. */
  effect: z.string().nullable().default(null),
  /** A point that no word can settle: an undecided deviation, for example. */
  blocking: z.boolean(),
  acknowledged: z.object({ word: z.string(), by: PersonNameSchema, at: InstantSchema }).nullable(),
})
export type ReviewPoint = z.infer<typeof ReviewPointSchema>

export const SignatureSchema = z.object({
  id: IdSchema,
  meaning: z.enum(['checked', 'approved', 'sent-back']),
  name: z.string(),
  role: z.string(),
  statement: z.string(),
  at: InstantSchema,
  digest: z.string(),
})
export type Signature = z.infer<typeof SignatureSchema>

export const ReviewSchema = z.object({
  designId: IdSchema,
  revisionId: IdSchema,
  revision: z.number().int(),
  state: DesignStateSchema,
  recommendation: RecommendationSchema.nullable(),
  points: z.array(ReviewPointSchema),
  /** SHA-256 (hex) of the content that a signature given now would sign. */
  digest: z.string(),
  /** SHA-256 (hex) of the work alone, which a check signs. */
  workDigest: z.string(),
  signatures: z.array(SignatureSchema.extend({ signerId: IdSchema })),
  /** Who did the work of this revision or entered a result: they may not check it. */
  doneBy: z.array(PersonNameSchema),
  /** Who did which part, as the report names it; whoever checked or approved signed for theirs. */
  parts: z.array(z.object({ name: z.string(), part: z.string() })),
  mayCheck: z.object({ allowed: z.boolean(), sentence: z.string() }),
  mayApprove: z.object({ allowed: z.boolean(), sentence: z.string() }),
  reportId: IdSchema.nullable(),
  /** Set when readings were corrected after approval. */
  changedSinceApproval: z.array(z.string()),
  /**
   * Which figures stand otherwise than somebody signed, and by how much: since the approval, which that leaves as it is, or
   * since the last check, which counts no more. Null while what was signed stands.
   */
  sinceSigned: z
    .object({
      meaning: z.enum(['checked', 'approved']),
      name: z.string(),
      at: InstantSchema,
      /** Whether the signature counts no more. */
      undone: z.boolean(),
      /** Only what differs: as signed, and as it stands. */
      parts: z.array(ComparedPartSchema),
    })
    .nullable(),
  /** The last sending back of this revision; each point in the words in which it stood then. */
  sentBack: z
    .object({ by: PersonNameSchema, at: InstantSchema, reason: z.string(), points: z.array(z.string()) })
    .nullable(),
})
export type Review = z.infer<typeof ReviewSchema>

export const AcknowledgeSchema = z.strictObject({
  id: IdSchema,
  pointKey: z.string(),
  word: z.string().trim().min(1, 'Say in a word why this is in order').max(1000),
})
export type Acknowledge = z.infer<typeof AcknowledgeSchema>

/** Signs exactly the content whose digest was shown; refused when it has changed meanwhile. */
export const SignSchema = z.strictObject({
  id: IdSchema,
  digest: z.string().regex(/^[0-9a-f]{64}$/),
  password: z.string().min(1, 'Enter your password'),
  statement: z.string().trim().max(1000).default(''),
})
export type Sign = z.infer<typeof SignSchema>

export const SendBackSchema = z.strictObject({
  id: IdSchema,
  reason: z.string().trim().min(1, 'Say what has to be put right').max(4000),
  /** What is wrong: keys of points of the review, codes of its specimens, or "recommendation"; kept is what each was. */
  points: z.array(z.string().min(1)).min(1, 'Name at least one point'),
})
export type SendBack = z.infer<typeof SendBackSchema>

export const NewRevisionSchema = z.strictObject({
  id: IdSchema,
  reason: z.string().trim().min(1, 'Say why a new revision is made').max(1000),
})
export type NewRevision = z.infer<typeof NewRevisionSchema>
