import type { SettledPutIn, SettlePutIn } from '@curebook/contract/put-in'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { personName } from '#platform/row-values'
import type { RowsSql } from '#platform/sql-rows'
import { type Runs, startStands } from './put-in.repository.ts'

type Asked = { readonly designId: string; readonly methodKey: string }

const stands = (list: string) =>
  `not exists (select from put_in_list later where later.lab_id = ${list}.lab_id and later.supersedes_id = ${list}.id)`

/** The list that stands for a design and method; with an id, that list, also when it was superseded. */
export async function findSettled(
  sql: RowsSql,
  { designId, methodKey, id = null }: Asked & { id?: string | null },
): Promise<SettledPutIn | null> {
  const [list] = await sql.rows<{
    id: string
    at: Date
    reason: string | null
    runMinutes: number
    byId: string
    byName: string
    byInitials: string
    instrumentId: string | null
    instrumentCode: string
    instrumentName: string
  }>(
    `select l.id, l.at, l.reason, l.run_minutes as "runMinutes", m.id as "byId", m.name as "byName", m.initials as "byInitials",
            i.id as "instrumentId", i.code as "instrumentCode", i.name as "instrumentName"
       from put_in_list l
       join membership m on m.lab_id = l.lab_id and m.id = l.by_id
       left join instrument i on i.lab_id = l.lab_id and i.id = l.instrument_id
      where l.lab_id = $1::uuid and case when $4::uuid is null
        then l.design_id = $2::uuid and l.method_key = $3 and ${stands('l')} else l.id = $4::uuid end`,
    [sql.actor.labId, designId, methodKey, id],
  )
  if (!list) return null
  const { byId, byName, byInitials, instrumentId, instrumentCode, instrumentName, at, ...plain } = list
  return {
    ...plain,
    at: at.toISOString(),
    by: personName({ id: byId, name: byName, initials: byInitials }),
    instrument: instrumentId === null ? null : { id: instrumentId, code: instrumentCode, name: instrumentName },
    rows: await findRows(sql, list.id),
  }
}

async function findRows(sql: RowsSql, listId: string): Promise<SettledPutIn['rows']> {
  const rows = await sql.rows<{
    testId: string
    code: string
    label: string
    putInAt: Date | null
    startAt: Date
    mustStartAt: Date
  }>(
    `select t.id as "testId", i.code, t.label, r.put_in_at as "putInAt", r.start_at as "startAt", r.must_start_at as "mustStartAt"
       from put_in_list_row r
       join test_event t on t.lab_id = r.lab_id and t.id = r.test_id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
      where r.lab_id = $1::uuid and r.list_id = $2::uuid order by r.ordinal`,
    [sql.actor.labId, listId],
  )
  return rows.map(({ putInAt, startAt, mustStartAt, ...named }) => ({
    ...named,
    putInAt: putInAt?.toISOString() ?? null,
    startAt: startAt.toISOString(),
    mustStartAt: mustStartAt.toISOString(),
  }))
}

/** A run of another list that stands, of a specimen that has not started. */
export type SettledRun = { label: string; designName: string; startAt: Date; runMinutes: number }

/** Runs settled by other lists on a machine, or on whichever: what stands in the way of a list for it. */
export function findSettledRuns(
  sql: RowsSql,
  { designId, methodKey, instrumentId, runs }: Asked & { instrumentId: string | null; runs: Runs },
): Promise<SettledRun[]> {
  return sql.rows<SettledRun>(
    `select t.label, d.name as "designName", r.start_at as "startAt", l.run_minutes as "runMinutes"
       from put_in_list l
       join put_in_list_row r on r.lab_id = l.lab_id and r.list_id = l.id
       join test_event t on t.lab_id = r.lab_id and t.id = r.test_id
       join test_now n on n.lab_id = t.lab_id and n.test_id = t.id and n.state in ('waiting', 'in-work', 'spare')
       join design d on d.lab_id = l.lab_id and d.id = l.design_id
       join unnest($5::text[], $6::text[]) as run (method_key, step_key) on run.method_key = l.method_key
      where l.lab_id = $1::uuid and not (l.design_id = $2::uuid and l.method_key = $3) and ${stands('l')}
        and ($4::uuid is null or l.instrument_id is null or l.instrument_id = $4::uuid)
        and not exists (select from step_event s where s.lab_id = t.lab_id and s.test_id = t.id and ${startStands('s', 'run.step_key')})
      order by r.start_at, d.name, t.label, t.id`,
    [
      sql.actor.labId,
      designId,
      methodKey,
      instrumentId,
      runs.map(({ method }) => method),
      runs.map(({ step }) => step),
    ],
  )
}

/** One list is settled after the other in a laboratory, so that of two at once the second sees the first, whatever machine. */
export async function lockLists({ prisma, actor }: LaboratoryTransaction): Promise<void> {
  await prisma.$queryRaw`select id from laboratory where id = ${actor.labId}::uuid for no key update`
}

export async function insertList(
  { prisma, actor, at }: LaboratoryTransaction,
  { id, designId, methodKey, instrumentId, runMinutes, rows, supersedes }: SettlePutIn,
  mustStartAt: readonly Date[],
): Promise<void> {
  const labId = actor.labId
  const list = { labId, id, designId, methodKey, instrumentId, runMinutes, byId: actor.membershipId, at }
  const chain = supersedes && { supersedesId: supersedes.id, reason: supersedes.reason || 'Settled anew' }
  await prisma.putInList.createMany({ data: [{ ...list, ...chain }] })
  await prisma.putInListRow.createMany({
    data: rows.map(({ testId, putInAt, startAt }, index) => ({
      ...{ labId, listId: id, ordinal: index + 1, testId },
      ...{ putInAt: putInAt && new Date(putInAt), startAt: new Date(startAt), mustStartAt: mustStartAt[index]! },
    })),
  })
}
