import type { RowsSql } from '#platform/sql-rows'
import type { LaboratoryTransaction } from '#platform/laboratory'

/** The laboratory, client and project as a report names them. */
export async function findLetterhead({ prisma, actor }: LaboratoryTransaction, projectId: string) {
  const laboratory = await prisma.laboratory.findUniqueOrThrow({ where: { id: actor.labId } })
  const project = await prisma.project.findUniqueOrThrow({
    where: { labId_id: { labId: actor.labId, id: projectId } },
    include: { client: true },
  })
  return { laboratory, project, client: project.client }
}

export type UsedInstrument = {
  code: string
  name: string
  kind: string
  usedFor: string[]
  factors: string[]
  certificate: string | null
  validUntil: string | null
}

/** Instruments that readings or runs of these tests name, with factor and calibration as they stand. */
export function findInstruments(sql: RowsSql, testIds: readonly string[]): Promise<UsedInstrument[]> {
  return sql.rows<UsedInstrument>(
    `with used as (
       select r.instrument_id as id, t.method_key from reading r join test_event t on t.lab_id = r.lab_id and t.id = r.test_id
        where r.lab_id = $1::uuid and r.test_id = any($2::uuid[]) and r.instrument_id is not null
       union
       select u.instrument_id, t.method_key from equipment_use u join step_event s on s.lab_id = u.lab_id and s.id = u.step_event_id join test_event t on t.lab_id = s.lab_id and t.id = s.test_id
        where u.lab_id = $1::uuid and s.test_id = any($2::uuid[])
     )
     select i.code, i.name, i.kind, array_agg(distinct used.method_key order by used.method_key) as "usedFor",
            array(select f.value_text || ' ' || f.unit || ' for each g, ' || f.edition || ', from ' || f.effective_from from instrument_factor f
                   where f.lab_id = i.lab_id and f.instrument_id = i.id and not exists (select from instrument_factor n where n.lab_id = f.lab_id and n.supersedes_id = f.id) order by f.unit) as factors,
            c.certificate, c.valid_until::text as "validUntil"
       from used join instrument i on i.lab_id = $1::uuid and i.id = used.id
       left join lateral (
         select certificate, valid_until from calibration c where c.lab_id = i.lab_id and c.instrument_id = i.id and c.passed
            and not exists (select from calibration n where n.lab_id = c.lab_id and n.supersedes_id = c.id) order by c.done_on desc limit 1
       ) c on true
      group by i.lab_id, i.id, i.code, i.name, i.kind, c.certificate, c.valid_until
      order by i.code`,
    [sql.actor.labId, testIds],
  )
}

export type UsedEdition = { methodKey: string; designation: string; year: string; revision: number; parameters: string }

/** Editions that the tests are pinned to. */
export function findEditions(sql: RowsSql, testIds: readonly string[]): Promise<UsedEdition[]> {
  return sql.rows<UsedEdition>(
    `select distinct e.method_key as "methodKey", e.designation, e.year, e.revision, e.parameters
       from test_event t join method_edition e on e.lab_id = t.lab_id and e.id = t.edition_id
      where t.lab_id = $1::uuid and t.id = any($2::uuid[]) order by e.method_key, e.revision`,
    [sql.actor.labId, testIds],
  )
}

export function findAcknowledgements({ prisma, actor }: LaboratoryTransaction, revisionId: string) {
  return prisma.acknowledgement.findMany({
    where: { labId: actor.labId, designRevisionId: revisionId, supersededBy: { is: null } },
    include: { by: { select: { id: true, name: true, initials: true } } },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  })
}
