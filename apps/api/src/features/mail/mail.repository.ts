import type { MailWishes } from '@curebook/contract/mail'
import type { Database } from '@curebook/database/open-database'
import type { AnyActor } from '#platform/actor'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { newId } from '#platform/uuid'

type Transaction = LaboratoryTransaction<AnyActor>

const wishOrder = [{ writtenAt: 'desc' }, { id: 'desc' }] as const

/** What holds for a person: what they said last, and nothing before they said anything. */
export async function findWishes({ prisma, actor }: Transaction, memberId: string): Promise<MailWishes> {
  const last = await prisma.mailWish.findFirst({
    where: { labId: actor.labId, byId: memberId },
    orderBy: [...wishOrder],
    select: { windowMinutes: true, notices: true, reports: true, answers: true },
  })
  if (!last) return { windowMinutes: null, notices: false, reports: false, answers: false }
  return { ...last, windowMinutes: last.windowMinutes as MailWishes['windowMinutes'] }
}

export async function insertWishes({ prisma, actor, at }: LaboratoryTransaction, wishes: MailWishes): Promise<string> {
  const id = newId()
  await prisma.mailWish.createMany({ data: [{ labId: actor.labId, id, byId: actor.membershipId, ...wishes, at }] })
  return id
}

/** How many tests these assignments are to whoever reads of them: a specimen with its batch is one, as on the Bench. */
export async function countTests({ prisma, actor }: Transaction, assignmentIds: readonly string[]): Promise<number> {
  const [row] = await prisma.$queryRaw<{ count: number }[]>`
    with named as (
      select t.method_key, i.code
        from assignment a
        join test_event t on t.lab_id = a.lab_id and t.id = a.test_id
        join item i on i.lab_id = t.lab_id and i.id = t.item_id
       where a.lab_id = ${actor.labId}::uuid and a.id = any(${[...assignmentIds]}::uuid[])
    )
    select count(*)::int as count from named n
     where n.method_key <> 'batch' or not exists (select from named other where other.code || '.B' = n.code)`
  return row!.count
}

/** People of a client whose membership holds now. */
export function findPeopleOf({ prisma, actor, at }: Transaction, clientId: string): Promise<{ id: string }[]> {
  return prisma.membership.findMany({
    where: {
      labId: actor.labId,
      clientId,
      accountId: { not: null },
      validFrom: { lte: at },
      OR: [{ validUntil: null }, { validUntil: { gt: at } }],
    },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
}

export async function projectNameOf({ prisma, actor }: Transaction, id: string): Promise<string> {
  const where = { labId_id: { labId: actor.labId, id } }
  return (await prisma.project.findUniqueOrThrow({ where, select: { name: true } })).name
}

export type NewMail = { toId: string; subject: string; body: string; uselessAt: Date | null }

export async function insertMail({ prisma, actor, at }: Transaction, mail: NewMail): Promise<string> {
  const id = newId()
  await prisma.mail.createMany({ data: [{ labId: actor.labId, id, ...mail, at }] })
  return id
}

/** One after another over all processes: looks of a laboratory, attempts of a mail. */
export async function lockFor({ prisma }: Transaction, what: string): Promise<void> {
  await prisma.$executeRaw`select pg_advisory_xact_lock(hashtextextended(${what}, 0))`
}

/** @returns false where somebody else holds it */
export async function tryLockFor({ prisma }: Transaction, what: string): Promise<boolean> {
  const [row] = await prisma.$queryRaw<{ held: boolean }[]>`
    select pg_try_advisory_xact_lock(hashtextextended(${what}, 0)) as held`
  return row!.held
}

export type WindowRow = {
  toId: string
  testId: string
  stepKey: string
  act: string
  closesAt: Date
  methodKey: string
  label: string
  code: string
  zone: string
}

/** Windows that close within the minutes that their person asked for, and of which that person was not told yet. */
export function findClosing({ prisma, actor, at }: Transaction): Promise<WindowRow[]> {
  return prisma.$queryRaw<WindowRow[]>`
    with wish as (
      select distinct on (by_id) by_id, window_minutes from mail_wish where lab_id = ${actor.labId}::uuid
       order by by_id, written_at desc, id desc
    )
    select m.id as "toId", d.test_id as "testId", d.step_key as "stepKey", d.act, d.closes_at as "closesAt",
           t.method_key as "methodKey", t.label, i.code, l.zone
      from due d
      join wish w on w.by_id = d.assignee_id and w.window_minutes is not null
      join membership m on m.lab_id = d.lab_id and m.id = d.assignee_id and m.account_id is not null
       and m.valid_from <= ${at} and (m.valid_until is null or m.valid_until > ${at})
      join laboratory l on l.id = d.lab_id
      join test_event t on t.lab_id = d.lab_id and t.id = d.test_id
      join item i on i.lab_id = t.lab_id and i.id = t.item_id
     where d.lab_id = ${actor.labId}::uuid and d.closes_at > ${at}
       and d.closes_at <= ${at}::timestamptz + make_interval(mins => w.window_minutes)
       and not exists (select from mail_window told where told.lab_id = d.lab_id and told.to_id = m.id and told.test_id = d.test_id
             and told.step_key = d.step_key and told.act = d.act and told.closes_at = d.closes_at)
     order by d.closes_at, t.label, i.code`
}

export async function insertToldWindows(
  { prisma, actor, at }: Transaction,
  mailId: string,
  rows: readonly WindowRow[],
) {
  await prisma.mailWindow.createMany({
    data: rows.map(({ toId, testId, stepKey, act, closesAt }) => ({
      ...{ labId: actor.labId, id: newId(), mailId, toId, testId, stepKey, act, closesAt, at },
    })),
  })
}

/** Mails of a laboratory that wait: neither sent nor dropped, and still of use. */
export async function findWaiting({ prisma, actor, at }: Transaction) {
  return prisma.mail.findMany({
    where: {
      labId: actor.labId,
      mailAttempts: { none: { outcome: { in: ['sent', 'dropped'] } } },
      OR: [{ uselessAt: null }, { uselessAt: { gt: at } }],
    },
    include: {
      mailAttempts: { orderBy: [{ writtenAt: 'desc' }, { id: 'desc' }], select: { at: true, error: true } },
      to: { select: { accountId: true, validUntil: true } },
    },
    orderBy: [{ writtenAt: 'asc' }, { id: 'asc' }],
    take: 200,
  })
}

export async function insertAttempt(
  { prisma, actor, at }: Transaction,
  attempt: { mailId: string; outcome: 'sent' | 'failed' | 'dropped'; error: string | null },
): Promise<void> {
  await prisma.mailAttempt.createMany({ data: [{ labId: actor.labId, id: newId(), ...attempt, at }] })
}

export async function shortNameOf({ prisma, actor }: Transaction): Promise<string> {
  return (await prisma.laboratory.findUniqueOrThrow({ where: { id: actor.labId }, select: { shortName: true } }))
    .shortName
}

/** The address of an account as it is now; null when it is gone. */
export async function addressOf({ identityPool }: Pick<Database, 'identityPool'>, accountId: string) {
  const { rows } = await identityPool.query<{ email: string }>('select email from identity_user where id = $1', [
    accountId,
  ])
  return rows[0]?.email ?? null
}
