import type { PersonName } from '@curebook/contract/common'
import type { Acknowledge, SendBack, Signature } from '@curebook/contract/review'
import type { RowsSql } from '#platform/sql-rows'
import { type Canonical, canonicalJson, sha256 } from '#platform/canonical-json'
import { ledgerContentOf } from '#platform/ledger-content'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { newId } from '#platform/uuid'
import { sentBackTexts, type SentBackPoint } from './send-back-points.ts'

/** Whoever read or did anything of these tests, by name. */
export function findDoers(sql: RowsSql, testIds: readonly string[]): Promise<PersonName[]> {
  return sql.rows<PersonName>(
    `select m.id as "membershipId", m.name, m.initials from membership m
      where m.lab_id = $1::uuid and m.id in (
        select by_id from reading where lab_id = $1::uuid and test_id = any($2::uuid[])
        union select by_id from step_event where lab_id = $1::uuid and test_id = any($2::uuid[]))
      order by m.name`,
    [sql.actor.labId, testIds],
  )
}

/** Somebody who entered values of these kinds: residue or moisture, results of the panel. */
export type Enterer = PersonName & { readonly entered: readonly ('panel' | 'values')[] }

/** Whoever entered residue, moisture, a gradation or a result of the panel on a design up to a revision, replaced values too, by name. */
export function findEnterers(sql: RowsSql, designId: string, upTo: number): Promise<Enterer[]> {
  return sql.rows<Enterer>(
    `select m.id as "membershipId", m.name, m.initials,
            array_agg(distinct case when e.key in ('residue', 'aggregate-moisture') then 'values' else 'panel' end) as entered
       from (select lab_id, design_revision_id, by_id, made_by, key from result
             union all select lab_id, design_revision_id, by_id, made_by, 'gradation' from gradation
              where lab_id = $1::uuid) e
       join design_revision r on r.lab_id = e.lab_id and r.id = e.design_revision_id
       join membership m on m.lab_id = e.lab_id and m.id = e.by_id
      where e.lab_id = $1::uuid and e.made_by <> 'computed' and r.design_id = $2::uuid and r.number <= $3
      group by m.id, m.name, m.initials
      order by m.name`,
    [sql.actor.labId, designId, upTo],
  )
}

/** Signatures on a revision or on its work, oldest first. */
export async function findSignatures(
  { prisma, actor }: LaboratoryTransaction,
  revisionId: string,
): Promise<(Signature & { signerId: string })[]> {
  const rows = await prisma.signature.findMany({
    where: { labId: actor.labId, signedContent: { is: { subjectId: revisionId } } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  })
  return rows.map(({ id, meaning, printedName, printedRole, statement, at, dig, signerId }) => ({
    id,
    meaning: meaning as Signature['meaning'],
    name: printedName,
    role: printedRole,
    statement,
    at: at.toISOString(),
    digest: Buffer.from(dig).toString('hex'),
    signerId,
  }))
}

/** Exactly what a signature is of. */
export async function findSignedBody({ prisma, actor }: LaboratoryTransaction, signatureId: string): Promise<string> {
  const { signedContent } = await prisma.signature.findUniqueOrThrow({
    where: { labId_id: { labId: actor.labId, id: signatureId } },
    select: { signedContent: { select: { body: true } } },
  })
  return signedContent.body
}

export async function findReportOf(
  { prisma, actor }: LaboratoryTransaction,
  revisionId: string,
): Promise<string | null> {
  const row = await prisma.report.findFirst({
    where: { labId: actor.labId, designRevisionId: revisionId, reportAsReplaces: { is: null } },
    select: { id: true },
  })
  return row?.id ?? null
}

/** The last sending back of a revision, while nothing newer stands. */
export async function findSendBack({ prisma, actor }: LaboratoryTransaction, revisionId: string) {
  const row = await prisma.sendBack.findFirst({
    where: { labId: actor.labId, designRevisionId: revisionId },
    include: { by: true },
    orderBy: [{ writtenAt: 'desc' }, { id: 'desc' }],
  })
  return (
    row && {
      by: { membershipId: row.by.id, name: row.by.name, initials: row.by.initials },
      at: row.at.toISOString(),
      reason: row.reason,
      points: sentBackTexts(row.points),
    }
  )
}

/** Whether the revision was sent back by this very act of the actor's. */
export async function isSentBack(
  { prisma, actor }: LaboratoryTransaction,
  revisionId: string,
  { id, reason }: Pick<SendBack, 'id' | 'reason'>,
): Promise<boolean> {
  const { labId, membershipId: byId } = actor
  return (await prisma.sendBack.count({ where: { labId, id, designRevisionId: revisionId, reason, byId } })) > 0
}

/** SQL: when an act happened, by the laboratory's wall clock. */
const wallClock = (table: string) =>
  `to_char((${table}.event_at + coalesce(${table}.offset_ms, 0) * interval '1 millisecond') at time zone (select zone from laboratory where id = $1::uuid), 'YYYY-MM-DD HH24:MI')`

/**
 * Corrections, of times too, withdrawals and voids written after a signature, in words. Compared by the time of writing: what was begun
 * before the signature and kept after it is told too.
 */
export async function changedSince(sql: RowsSql, testIds: readonly string[], signatureId: string): Promise<string[]> {
  const rows = await sql.rows<{ sentence: string }>(
    `with signed as (select written_at from signature where lab_id = $1::uuid and id = $3::uuid),
     changed as (
       select r.test_id, r.written_at, r.id, s.typed || ' corrected to ' || r.typed || ', ' || r.reason as words
         from reading r join reading s on s.lab_id = r.lab_id and s.id = r.supersedes_id
        where r.lab_id = $1::uuid and r.test_id = any($2::uuid[])
       union all
       select w.test_id, w.written_at, w.id, s.typed || ' withdrawn, ' || w.reason
         from reading_withdrawal w join reading s on s.lab_id = w.lab_id and s.id = w.reading_id
        where w.lab_id = $1::uuid and w.test_id = any($2::uuid[])
       union all
       select e.test_id, e.written_at, e.id, e.kind || ' of ' || replace(e.step_key, '-', ' ') || ', ' || ${wallClock('o')} || ' put right to ' || ${wallClock('e')} || ', ' || e.reason
         from step_event e join step_event o on o.lab_id = e.lab_id and o.id = e.supersedes_id
        where e.lab_id = $1::uuid and e.test_id = any($2::uuid[]) and e.kind in ('start', 'end')
       union all
       select e.test_id, e.written_at, e.id, 'void, ' || e.note from step_event e
        where e.lab_id = $1::uuid and e.test_id = any($2::uuid[]) and e.kind = 'void'
       union all
       select e.test_id, e.written_at, e.id, 'seen, ' || replace(e.choice, '-', ' ') || coalesce(', ' || e.note, '') from step_event e
        where e.lab_id = $1::uuid and e.test_id = any($2::uuid[]) and e.kind = 'observe')
     select t.label || ' (' || i.code || '): ' || c.words as sentence
       from changed c join signed on c.written_at > signed.written_at
       join test_event t on t.lab_id = $1::uuid and t.id = c.test_id join item i on i.lab_id = t.lab_id and i.id = t.item_id
      order by c.written_at, c.id`,
    [sql.actor.labId, testIds, signatureId],
  )
  return rows.map(({ sentence }) => sentence)
}

/** Readings, acts and voids of a design wait until the transaction ends: what is read from now on is what is signed. */
export async function holdTests(sql: RowsSql, designId: string): Promise<void> {
  await sql.rows(
    `select n.test_id from test_now n join test_event t on t.lab_id = n.lab_id and t.id = n.test_id
       join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
      where n.lab_id = $1::uuid and r.design_id = $2::uuid order by n.test_id for update of n`,
    [sql.actor.labId, designId],
  )
}

/** A word on a point; a further word on it supersedes the first. @returns false where this very one was said before */
export async function insertAcknowledgement(
  { prisma, actor, at }: LaboratoryTransaction,
  revisionId: string,
  input: Acknowledge,
): Promise<boolean> {
  const { labId } = actor
  // Sent again, also behind another's further word.
  if ((await prisma.acknowledgement.count({ where: { labId, id: input.id, designRevisionId: revisionId } })) > 0)
    return false
  const standing = await prisma.acknowledgement.findFirst({
    where: { labId, designRevisionId: revisionId, pointKey: input.pointKey, supersededBy: { is: null } },
    select: { id: true },
  })
  await prisma.acknowledgement.createMany({
    data: [
      {
        labId,
        id: input.id,
        designRevisionId: revisionId,
        pointKey: input.pointKey,
        word: input.word,
        supersedesId: standing?.id ?? null,
        reason: standing ? 'Said again' : null,
        byId: actor.membershipId,
        at,
      },
    ],
  })
  return true
}

export async function insertSendBack(
  { prisma, actor, at }: LaboratoryTransaction,
  revisionId: string,
  { id, reason }: Pick<SendBack, 'id' | 'reason'>,
  points: readonly SentBackPoint[],
): Promise<void> {
  await prisma.sendBack.createMany({
    data: [
      {
        labId: actor.labId,
        id,
        designRevisionId: revisionId,
        reason,
        points: canonicalJson(points as unknown as Canonical),
        byId: actor.membershipId,
        at,
      },
    ],
  })
}

type NewSignature = {
  id: string
  kind: 'check' | 'revision'
  revisionId: string
  body: string
  meaning: 'checked' | 'approved'
  statement: string
  proof: { authenticatedAt: Date; means: 'password' }
  topics: string[]
}

/** Keeps exactly the bytes that are signed, once, and the signature on them. */
export async function insertSignature(
  tx: LaboratoryTransaction,
  { id, kind, revisionId, body, meaning, statement, proof, topics }: NewSignature,
): Promise<void> {
  const { prisma, actor, at } = tx
  const dig = new Uint8Array(sha256(body))
  const standing = await prisma.signedContent.findFirst({ where: { labId: actor.labId, dig }, select: { id: true } })
  const signedContentId = standing?.id ?? newId()
  if (!standing)
    await prisma.signedContent.createMany({
      data: [
        {
          labId: actor.labId,
          id: signedContentId,
          kind,
          subjectId: revisionId,
          schema: 1,
          body,
          dig,
          byId: actor.membershipId,
          at,
        },
      ],
    })
  const row = {
    labId: actor.labId,
    id,
    signedContentId,
    dig,
    meaning,
    signerId: actor.membershipId,
    printedName: actor.name,
    printedRole:
      meaning === 'approved'
        ? 'engineer'
        : actor.roles.filter((role) => role === 'manager' || role === 'engineer').join(', '),
    statement,
    authenticatedAt: proof.authenticatedAt,
    means: proof.means,
    byId: actor.membershipId,
    at,
  }
  await prisma.signature.createMany({ data: [row] })
  tx.record({
    action: meaning === 'approved' ? 'revision:approve' : 'revision:check',
    subjectKind: 'signature',
    subjectId: id,
    topics,
    content: { revision: revisionId, digest: Buffer.from(dig).toString('hex') },
    rows: [ledgerContentOf('signature', row)],
  })
}
