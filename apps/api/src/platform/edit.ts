import { type Canonical, digestOf } from './canonical-json.ts'
import { changedMeanwhile } from './etag.ts'
import type { LaboratoryTransaction } from './laboratory.ts'

export type Edit = {
  readonly subjectKind: string
  readonly subjectId: string
  readonly action: string
  /** SHA-256 of version and body, for the entry of the edit. */
  readonly request: string
}

/** An edit by the version that it starts from (If-Match): the same body from the same version is the same edit. */
export function editOf(
  subject: Pick<Edit, 'subjectKind' | 'subjectId' | 'action'>,
  version: number,
  input: unknown,
): Edit {
  const body = JSON.parse(JSON.stringify({ version: String(version), input })) as Canonical
  return { ...subject, request: digestOf(body).toString('hex') }
}

/**
 * For an edit whose version stands no more. Where the same person made this very edit, its answer was lost on the way or both
 * were sent at once: what stands is the answer. Anybody else is told that it changed.
 * @param stored as it stands now, read after whoever was first
 * @throws AppError `changed-meanwhile`
 */
export async function repeatedEdit<T>(tx: LaboratoryTransaction, edit: Edit, stored: T): Promise<T> {
  const { labId, membershipId } = tx.actor
  const made = await tx.prisma.$queryRaw<unknown[]>`
    select id from ledger_entry
     where lab_id = ${labId}::uuid and subject_kind = ${edit.subjectKind} and subject_id = ${edit.subjectId}::uuid
       and actor_id = ${membershipId}::uuid and action = ${edit.action}
       and content::jsonb ->> 'request' = ${edit.request}
     limit 1`
  if (made.length === 0) throw changedMeanwhile(stored)
  return stored
}
