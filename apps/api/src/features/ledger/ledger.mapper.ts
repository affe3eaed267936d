import type { HeadPrint, LedgerEntryView } from '@curebook/contract/ledger'

export type EntryRow = {
  id: string
  seq: string | null
  hash: Buffer | null
  at: Date
  actor_kind: LedgerEntryView['actorKind']
  actor_id: string | null
  actor_name: string | null
  actor_initials: string | null
  action: string
  subject_kind: string
  subject_id: string
  project_id: string | null
  client_id: string | null
  content: string
  dig: Buffer
}

export function toEntryView(row: EntryRow): LedgerEntryView {
  return {
    id: row.id,
    seq: row.seq === null ? null : Number(row.seq),
    at: row.at.toISOString(),
    actorKind: row.actor_kind,
    actor:
      row.actor_id === null
        ? null
        : { membershipId: row.actor_id, name: row.actor_name!, initials: row.actor_initials! },
    action: row.action,
    subjectKind: row.subject_kind,
    subjectId: row.subject_id,
    projectId: row.project_id,
    clientId: row.client_id,
    content: row.content,
    digest: row.dig.toString('hex'),
    hash: row.hash?.toString('hex') ?? null,
  }
}

export type HeadPrintRow = {
  id: string
  seq: string
  hash: Buffer
  printed_at: Date
  place: string
  by_id: string
  name: string
  initials: string
}

export function toHeadPrint(row: HeadPrintRow): HeadPrint {
  return {
    id: row.id,
    seq: Number(row.seq),
    hash: row.hash.toString('hex'),
    printedAt: row.printed_at.toISOString(),
    place: row.place,
    by: { membershipId: row.by_id, name: row.name, initials: row.initials },
  }
}
