import type { Prisma } from '@curebook/database/client'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { dateOfDay, personColumns } from '#platform/row-values'
import type { RowsSql } from '#platform/sql-rows'
import type { Span } from './authorisation-rules.ts'

const named = {
  membership: { select: personColumns },
  by: { select: personColumns },
} satisfies Prisma.AuthorisationInclude
export type AuthorisationRow = Prisma.AuthorisationGetPayload<{ include: typeof named }>

/** Those that nothing has taken the place of. */
export function findStanding({ prisma, actor }: LaboratoryTransaction): Promise<AuthorisationRow[]> {
  return prisma.authorisation.findMany({
    where: { labId: actor.labId, supersededBy: { is: null } },
    include: named,
    orderBy: [{ membership: { name: 'asc' } }, { activity: 'asc' }, { fromDay: 'asc' }, { id: 'asc' }],
  })
}

export function findAuthorisation({ prisma, actor }: LaboratoryTransaction, id: string) {
  return prisma.authorisation.findUnique({
    where: { labId_id: { labId: actor.labId, id } },
    include: { ...named, supersededBy: { include: named } },
  })
}

/**
 * Changes of one person's authorisations follow one another. Rows that only name the person are held up by none: of two
 * managers who authorise one another, each one's grant names the other.
 */
export async function lockPerson({ prisma, actor }: LaboratoryTransaction, id: string): Promise<void> {
  await prisma.$queryRaw`select id from membership where lab_id = ${actor.labId}::uuid and id = ${id}::uuid for no key update`
}

export type NewAuthorisation = Span & {
  id: string
  membershipId: string
  activity: string
  evidence: string
  supersedesId: string | null
  reason: string | null
}

export async function insertAuthorisation(
  { prisma, actor, at }: LaboratoryTransaction,
  { fromDay, untilDay, ...row }: NewAuthorisation,
): Promise<void> {
  await prisma.authorisation.createMany({
    data: [
      {
        ...row,
        labId: actor.labId,
        fromDay: dateOfDay(fromDay),
        untilDay: untilDay && dateOfDay(untilDay),
        byId: actor.membershipId,
        at,
      },
    ],
  })
}

export type Granted = Span & { readonly activity: string; readonly membershipId: string }

/** The standing spans of some activities, of everybody. What has been ended by a correction still binds its activity. */
export function findGranted(sql: RowsSql, activities: readonly string[]): Promise<Granted[]> {
  return sql.rows<Granted>(
    `select a.activity, a.membership_id as "membershipId", a.from_day::text as "fromDay", a.until_day::text as "untilDay"
       from authorisation a
      where a.lab_id = $1::uuid and a.activity = any($2::text[])
        and not exists (select from authorisation c where c.lab_id = a.lab_id and c.supersedes_id = a.id)`,
    [sql.actor.labId, activities],
  )
}
