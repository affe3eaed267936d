import { z } from 'zod'
import { CursorQuerySchema, IdSchema, InstantSchema, pageOf } from './common.ts'

const HashSchema = z.string().regex(/^[0-9a-f]{64}$/, 'A SHA-256 in 64 hexadecimal digits')

/** One change: who, when, what, to which subject. `content` is the canonical JSON text under the digest. */
export const LedgerEntrySchema = z.object({
  id: IdSchema,
  /** Place in the chain; null for the moment before it is sealed. */
  seq: z.number().int().nullable(),
  at: InstantSchema,
  actorKind: z.enum(['person', 'device', 'system']),
  actor: z.object({ membershipId: IdSchema, name: z.string(), initials: z.string() }).nullable(),
  action: z.string(),
  subjectKind: z.string(),
  subjectId: IdSchema,
  projectId: IdSchema.nullable(),
  clientId: IdSchema.nullable(),
  content: z.string(),
  digest: z.string(),
  hash: z.string().nullable(),
})
export type LedgerEntryView = z.infer<typeof LedgerEntrySchema>

export const LedgerEntriesSchema = pageOf(LedgerEntrySchema)
export const LedgerQuerySchema = CursorQuerySchema.extend({
  subjectKind: z.string().max(60).optional(),
  subjectId: IdSchema.optional(),
  projectId: IdSchema.optional(),
})
export type LedgerQuery = z.infer<typeof LedgerQuerySchema>

/** Where the ledger no longer holds, in the order in which it is looked for. */
export const LedgerBreakSchema = z.object({
  kind: z.enum([
    'entry-altered',
    'entry-columns-differ',
    'entry-missing',
    'chain-broken',
    'row-altered',
    'row-missing',
    'row-without-entry',
    'tail-missing',
    'head-differs',
  ]),
  seq: z.number().int().nullable(),
  entryId: IdSchema.nullable(),
  table: z.string().nullable(),
  rowId: IdSchema.nullable(),
  message: z.string(),
})
export type LedgerBreak = z.infer<typeof LedgerBreakSchema>

/** A head of the chain: the last seal's number and hash. */
export const LedgerHeadSchema = z.object({
  seq: z.number().int(),
  hash: z.string(),
  sealedAt: InstantSchema.nullable(),
})
export type LedgerHead = z.infer<typeof LedgerHeadSchema>

/** A head as printed and kept elsewhere, to compare the chain with. */
export const VerifyLedgerSchema = z.strictObject({
  printed: z.strictObject({ seq: z.number().int().min(0), hash: HashSchema }).optional(),
})
export type VerifyLedger = z.infer<typeof VerifyLedgerSchema>

export const LedgerVerdictSchema = z.object({
  whole: z.boolean(),
  firstBreak: LedgerBreakSchema.nullable(),
  entries: z.number().int(),
  /** Entries of the last moment, in the ledger and not yet under the chain. */
  unsealed: z.number().int(),
  rowsCompared: z.number().int(),
  headsCompared: z.number().int(),
  head: LedgerHeadSchema,
  checkedAt: InstantSchema,
})
export type LedgerVerdict = z.infer<typeof LedgerVerdictSchema>

export const PrintHeadSchema = z.strictObject({
  id: IdSchema,
  place: z.string().trim().min(1, 'Say where the print is kept').max(200),
})
export type PrintHead = z.infer<typeof PrintHeadSchema>

export const HeadPrintSchema = z.object({
  id: IdSchema,
  seq: z.number().int(),
  hash: z.string(),
  printedAt: InstantSchema,
  place: z.string(),
  by: z.object({ membershipId: IdSchema, name: z.string(), initials: z.string() }),
})
export type HeadPrint = z.infer<typeof HeadPrintSchema>
