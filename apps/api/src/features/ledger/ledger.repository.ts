import type { LedgerHead, LedgerQuery } from '@curebook/contract/ledger'
import type { LaboratorySql } from '#platform/laboratory'
import type { AnyActor } from '#platform/actor'
import type { EntryRow, HeadPrintRow } from './ledger.mapper.ts'

const entryColumns = `e.id, s.seq, s.hash, e.at, e.actor_kind, e.actor_id, m.name as actor_name, m.initials as actor_initials,
  e.action, e.subject_kind, e.subject_id, e.project_id, e.client_id, e.content, e.dig`

/** Entries, the latest first, before the chain number of the cursor; those not sealed yet come with the first page. */
export async function listEntries(
  sql: LaboratorySql,
  { limit, subjectKind, subjectId, projectId }: LedgerQuery,
  before: number | undefined,
): Promise<EntryRow[]> {
  const { rows } = await sql.query<EntryRow>(
    `select ${entryColumns}
     from ledger_entry e
     ${before === undefined ? 'left join' : 'join'} ledger_seal s on s.lab_id = e.lab_id and s.entry_id = e.id
     left join membership m on m.lab_id = e.lab_id and m.id = e.actor_id
     where e.lab_id = $1 and ($2::bigint is null or s.seq < $2)
       and ($3::text is null or e.subject_kind = $3) and ($4::uuid is null or e.subject_id = $4) and ($5::uuid is null or e.project_id = $5)
     order by s.seq desc nulls first, e.written_at desc, e.id desc
     limit $6`,
    [sql.actor.labId, before ?? null, subjectKind ?? null, subjectId ?? null, projectId ?? null, limit + 1],
  )
  return rows
}

export async function readHead(sql: LaboratorySql<AnyActor>): Promise<LedgerHead> {
  const { rows } = await sql.query<{ seq: string; hash: Buffer; sealed_at: Date }>(
    'select seq, hash, sealed_at from ledger_seal where lab_id = $1 order by seq desc limit 1',
    [sql.actor.labId],
  )
  const [head] = rows
  return head
    ? { seq: Number(head.seq), hash: head.hash.toString('hex'), sealedAt: head.sealed_at.toISOString() }
    : { seq: 0, hash: '0'.repeat(64), sealedAt: null }
}

export async function listHeadPrints(sql: LaboratorySql<AnyActor>): Promise<HeadPrintRow[]> {
  const { rows } = await sql.query<HeadPrintRow>(
    `select p.id, p.seq, p.hash, p.printed_at, p.place, p.by_id, m.name, m.initials
     from ledger_head_print p join membership m on m.lab_id = p.lab_id and m.id = p.by_id
     where p.lab_id = $1 order by p.printed_at desc, p.written_at desc, p.id desc`,
    [sql.actor.labId],
  )
  return rows
}

export async function insertHeadPrint(sql: LaboratorySql, id: string, head: LedgerHead, place: string): Promise<void> {
  await sql.query(
    'insert into ledger_head_print (lab_id, id, seq, hash, printed_at, place, by_id, at) values ($1, $2, $3, $4, $5, $6, $7, $5)',
    [sql.actor.labId, id, head.seq, Buffer.from(head.hash, 'hex'), sql.at, place, sql.actor.membershipId],
  )
}
