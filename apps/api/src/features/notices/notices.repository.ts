import type { LaboratoryTransaction } from '#platform/laboratory'
import type { RowsSql } from '#platform/sql-rows'
import type { NoticeDraft } from './assignment-notices.ts'

/** One assignment of a notice, with the notice it belongs to. */
export type NoticeRow = {
  id: string
  kind: 'given' | 'taken'
  reason: string | null
  at: Date
  byId: string
  byName: string
  byInitials: string
  testId: string
  methodKey: string
  code: string
  label: string
  otherId: string | null
  otherName: string | null
  otherInitials: string | null
}

/** @returns how many notices of the actor are not seen */
export async function countUnseen(sql: RowsSql): Promise<number> {
  const [row] = await sql.rows<{ count: number }>(`select count(*)::int as count from notice n where ${unseen}`, [
    sql.actor.labId,
    sql.actor.membershipId,
  ])
  return row!.count
}

/** The newest notices of the actor that are not seen, a row an assignment. */
export function findUnseen(sql: RowsSql, limit: number): Promise<NoticeRow[]> {
  return sql.rows<NoticeRow>(
    `select n.id, n.kind, n.reason, n.at, m.id as "byId", m.name as "byName", m.initials as "byInitials",
            t.id as "testId", t.method_key as "methodKey", i.code, t.label,
            o.id as "otherId", o.name as "otherName", o.initials as "otherInitials"
       from (select * from notice n where ${unseen} order by n.at desc, n.written_at desc, n.id limit $3) n
       join membership m on m.lab_id = n.lab_id and m.id = n.by_id
       join notice_assignment l on l.lab_id = n.lab_id and l.notice_id = n.id
       join assignment a on a.lab_id = l.lab_id and a.id = l.assignment_id
       join test_event t on t.lab_id = a.lab_id and t.id = a.test_id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       left join assignment before on before.lab_id = a.lab_id and before.id = a.supersedes_id
       left join membership o on o.lab_id = a.lab_id
         and o.id = case n.kind when 'given' then before.to_member_id else a.to_member_id end
      order by n.at desc, n.written_at desc, n.id, t.label, i.code`,
    [sql.actor.labId, sql.actor.membershipId, limit],
  )
}

const unseen = `n.lab_id = $1::uuid and n.to_id = $2::uuid
  and not exists (select from notice_seen s where s.lab_id = n.lab_id and s.notice_id = n.id)`

export async function insertNotices(
  { prisma, actor, at }: LaboratoryTransaction,
  notices: readonly (NoticeDraft & { readonly id: string })[],
  reason: string | null,
): Promise<void> {
  const labId = actor.labId
  await prisma.notice.createMany({
    data: notices.map(({ id, toId, kind }) => ({ labId, id, toId, kind, reason, byId: actor.membershipId, at })),
  })
  await prisma.noticeAssignment.createMany({
    data: notices.flatMap(({ id, assignmentIds }) =>
      assignmentIds.map((assignmentId) => ({ labId, noticeId: id, assignmentId })),
    ),
  })
}

/** Whether it is a notice to the actor: nobody else's can be read. */
export async function isMine({ prisma, actor }: LaboratoryTransaction, id: string): Promise<boolean> {
  return (await prisma.notice.count({ where: { labId: actor.labId, id, toId: actor.membershipId } })) > 0
}

/** @returns false where it was seen before */
export async function insertSeen({ prisma, actor, at }: LaboratoryTransaction, id: string): Promise<boolean> {
  const { count } = await prisma.noticeSeen.createMany({
    data: [{ labId: actor.labId, noticeId: id, byId: actor.membershipId, at }],
    // Said on two devices at once, it is said once.
    skipDuplicates: true,
  })
  return count > 0
}
