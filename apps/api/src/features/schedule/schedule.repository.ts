import type { LaboratoryTransaction } from '#platform/laboratory'
import type { RowsSql } from '#platform/sql-rows'

export type OpenTest = {
  testId: string
  itemId: string
  code: string
  label: string
  designId: string
  designName: string
  projectName: string
  form: string
  methodKey: string
  state: string
  batchState: string | null
  /** The act that is next for the specimen or, before it is cast, for its batch. */
  dueMethodKey: string
  stepKey: string
  act: 'start' | 'end' | 'reading'
  opensAt: Date | null
  closesAt: Date | null
  assigneeId: string | null
  assigneeName: string | null
  assigneeInitials: string | null
}

/** Every test of a design with something to do, as one row with the batch that its specimen is cast from. */
export function findOpenTests(sql: RowsSql): Promise<OpenTest[]> {
  return sql.rows<OpenTest>(
    `
    select t.id as "testId", i.id as "itemId", i.code, t.label, d.id as "designId", d.name as "designName", p.name as "projectName",
           i.form, t.method_key as "methodKey", n.state, bn.state as "batchState",
           case when of_batch.test_id is null then t.method_key else b.method_key end as "dueMethodKey",
           coalesce(of_batch.step_key, own.step_key) as "stepKey",
           coalesce(of_batch.act, own.act) as act,
           case when of_batch.test_id is null then own.opens_at else of_batch.opens_at end as "opensAt",
           case when of_batch.test_id is null then own.closes_at else of_batch.closes_at end as "closesAt",
           a.id as "assigneeId", a.name as "assigneeName", a.initials as "assigneeInitials"
      from test_now n
      join test_event t on t.lab_id = n.lab_id and t.id = n.test_id and t.method_key <> 'batch'
      join item i on i.lab_id = t.lab_id and i.id = t.item_id
      join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
      join design d on d.lab_id = r.lab_id and d.id = r.design_id
      join project p on p.lab_id = d.lab_id and p.id = d.project_id
      left join lateral (
        select b.lab_id, b.id, b.method_key from item_parent cast_from
          join test_event b on b.lab_id = cast_from.lab_id and b.item_id = cast_from.parent_id and b.method_key = 'batch'
         where cast_from.lab_id = i.lab_id and cast_from.child_id = i.id limit 1
      ) b on true
      left join test_now bn on bn.lab_id = b.lab_id and bn.test_id = b.id
      left join due of_batch on of_batch.lab_id = b.lab_id and of_batch.test_id = b.id
      left join due own on own.lab_id = t.lab_id and own.test_id = t.id
      left join membership a on a.lab_id = n.lab_id and a.id = n.assignee_id
     where n.lab_id = $1::uuid and n.state in ('waiting', 'in-work', 'spare')
       and coalesce(of_batch.test_id, own.test_id) is not null
     order by "closesAt" nulls last, "opensAt" nulls last, d.name, t.method_key, t.label, i.code`,
    [sql.actor.labId],
  )
}

export type WorkingTimes = {
  zone: string
  closedDays: { weekdays: number[]; dates: string[] }
  shifts: { from: string; to: string }[]
}

/** When the laboratory works. */
export async function findWorkingTimes(sql: RowsSql): Promise<WorkingTimes> {
  const [row] = await sql.rows<{ zone: string; closedDays: string; shifts: string }>(
    'select zone, closed_days as "closedDays", shifts from laboratory where id = $1::uuid',
    [sql.actor.labId],
  )
  return {
    zone: row!.zone,
    closedDays: JSON.parse(row!.closedDays) as WorkingTimes['closedDays'],
    shifts: JSON.parse(row!.shifts) as WorkingTimes['shifts'],
  }
}

/** People who can be given tests: members now, other than clients and auditors alone. */
export function findAssignable(sql: RowsSql): Promise<{ id: string; name: string; initials: string }[]> {
  return sql.rows(
    `select id, name, initials from membership
      where lab_id = $1::uuid and roles && array['manager', 'technician', 'engineer']
        and valid_from <= $2::timestamptz and (valid_until is null or valid_until > $2::timestamptz)
      order by name, id`,
    [sql.actor.labId, sql.at],
  )
}

export type AssignableTest = {
  testId: string
  code: string
  label: string
  state: string
  assigneeId: string | null
  assignmentId: string | null
  projectId: string | null
  designId: string | null
  /** The other one of specimen and batch. */
  pairedId: string | null
}

/**
 * The tests of these ids and those that go with them (a specimen's batch, a batch's specimens). To change them, `lock` takes
 * them first, in one order everywhere, and they are read under the lock. Tests that are not here are left out.
 */
export async function findPairs(
  { prisma, actor }: LaboratoryTransaction,
  testIds: readonly string[],
  { lock }: { lock: boolean },
): Promise<AssignableTest[]> {
  const pairs = await prisma.$queryRaw<{ testId: string; pairedId: string | null }[]>`
    with asked as (
      select id, item_id, method_key from test_event where lab_id = ${actor.labId}::uuid and id = any(${testIds}::uuid[])
    ), link as (
      select cast_from.child_id, cast_from.parent_id, b.id as batch_id from item_parent cast_from
        join test_event b on b.lab_id = cast_from.lab_id and b.item_id = cast_from.parent_id and b.method_key = 'batch'
       where cast_from.lab_id = ${actor.labId}::uuid
         and (cast_from.child_id in (select item_id from asked) or cast_from.parent_id in (select item_id from asked))
    )
    select asked.id as "testId", link.batch_id as "pairedId"
      from asked left join link on link.child_id = asked.item_id
     where asked.method_key <> 'batch'
    union
    select asked.id, standing.id
      from asked
      left join link on link.parent_id = asked.item_id
      left join lateral (
        select t.id from test_event t join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
         where t.lab_id = ${actor.labId}::uuid and t.item_id = link.child_id and n.state not in ('void', 'replaced')
      ) standing on true
     where asked.method_key = 'batch'`
  const ids = [
    ...new Set(pairs.flatMap(({ testId, pairedId }) => (pairedId === null ? [testId] : [testId, pairedId]))),
  ].toSorted()
  if (lock)
    await prisma.$queryRaw`select test_id from test_now where lab_id = ${actor.labId}::uuid and test_id = any(${ids}::uuid[]) order by test_id for update`
  const rows = await prisma.$queryRaw<Omit<AssignableTest, 'pairedId'>[]>`
    select t.id as "testId", i.code, t.label, n.state, n.assignee_id as "assigneeId", given.id as "assignmentId",
           t.project_id as "projectId", r.design_id as "designId"
      from test_event t
      join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
      join item i on i.lab_id = t.lab_id and i.id = t.item_id
      left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
      left join assignment given on given.lab_id = t.lab_id and given.test_id = t.id and given.step_key is null
        and not exists (select from assignment later where later.lab_id = given.lab_id and later.supersedes_id = given.id)
     where t.lab_id = ${actor.labId}::uuid and t.id = any(${ids}::uuid[])`
  const pairOf = new Map(
    pairs.flatMap(({ testId, pairedId }) =>
      pairedId === null
        ? []
        : ([
            [testId, pairedId],
            [pairedId, testId],
          ] as const),
    ),
  )
  return rows.map((row) => ({ ...row, pairedId: pairOf.get(row.testId) ?? null }))
}

export type NewAssignment = {
  id: string
  testId: string
  toMemberId: string | null
  supersedesId: string | null
  reason: string | null
}

export async function insertAssignments(
  { prisma, actor, at }: LaboratoryTransaction,
  rows: readonly NewAssignment[],
  to: string | null,
): Promise<void> {
  const testIds = rows.map(({ testId }) => testId)
  await prisma.assignment.createMany({
    data: rows.map((row) => ({ ...row, labId: actor.labId, byId: actor.membershipId, at })),
  })
  await prisma.testNow.updateMany({ where: { labId: actor.labId, testId: { in: testIds } }, data: { assigneeId: to } })
  await prisma.due.updateMany({ where: { labId: actor.labId, testId: { in: testIds } }, data: { assigneeId: to } })
}
