import type { Prisma } from '@curebook/database/client'
import type { AnyActor } from './actor.ts'
import { type Canonical, canonicalJson, sha256 } from './canonical-json.ts'
import type { LedgerRow } from './ledger-content.ts'
import { newId } from './uuid.ts'

/** What a service says of a change; time, actor and laboratory come from the transaction. */
export type LedgerDraft = {
  /** `<feature>:<verb>`, mostly the route's action. */
  action: string
  subjectKind: string
  subjectId: string
  projectId?: string | null
  /** Set when the client may hear of it live. */
  clientId?: string | null
  /** What changed, for live screens: `project:<id>`, `test:<id>`, `people` … The client's topic is added by itself. */
  topics: string[]
  /** What is not a row: a decision's words, before and after of an edit. */
  content?: { readonly [key: string]: Canonical | undefined }
  /** Rows this change wrote, each from `ledgerContentOf`. Readings, results and signatures must stand here. */
  rows?: LedgerRow[]
  /** SHA-256 of the request that made it, hexadecimal, which `createOnce` fills in; of an edit, that of `editOf`. */
  request?: string
}

export type LedgerEntryRow = Prisma.LedgerEntryCreateManyInput

/** The entry of a change: canonical text of the whole and its SHA-256. */
export function entryOf(actor: AnyActor, at: Date, draft: LedgerDraft): LedgerEntryRow {
  const id = newId()
  const person = actor.kind === 'person' ? actor : undefined
  const content = canonicalJson({
    id,
    lab: actor.labId,
    at: at.toISOString(),
    actor: { kind: actor.kind, id: person?.membershipId ?? null, session: person?.sessionId ?? null },
    action: draft.action,
    subject: { kind: draft.subjectKind, id: draft.subjectId },
    project: draft.projectId ?? null,
    client: draft.clientId ?? null,
    request: draft.request,
    content: draft.content ?? {},
    rows: draft.rows ?? [],
  })
  return {
    labId: actor.labId,
    id,
    actorKind: actor.kind,
    actorId: person?.membershipId ?? null,
    sessionId: person?.sessionId ?? null,
    action: draft.action,
    subjectKind: draft.subjectKind,
    subjectId: draft.subjectId,
    projectId: draft.projectId ?? null,
    clientId: draft.clientId ?? null,
    topics: draft.clientId ? [...draft.topics, `client:${draft.clientId}`] : draft.topics,
    content,
    dig: new Uint8Array(sha256(content)),
    at,
  }
}

const columns = [
  'labId',
  'id',
  'actorKind',
  'actorId',
  'sessionId',
  'action',
  'subjectKind',
  'subjectId',
  'projectId',
  'clientId',
  'topics',
  'content',
  'dig',
  'at',
] as const

/** One statement that appends all entries, for the raw `pg` path. */
export function insertEntries(entries: LedgerEntryRow[]): { text: string; values: unknown[] } {
  const values = entries.flatMap((entry) =>
    columns.map((column) => (column === 'dig' ? Buffer.from(entry.dig) : entry[column])),
  )
  const rows = entries.map(
    (_, row) => `(${columns.map((_, column) => `$${row * columns.length + column + 1}`).join(', ')})`,
  )
  return {
    text: `insert into ledger_entry (lab_id, id, actor_kind, actor_id, session_id, action, subject_kind, subject_id, project_id, client_id, topics, content, dig, at)
      values ${rows.join(', ')}`,
    values,
  }
}
