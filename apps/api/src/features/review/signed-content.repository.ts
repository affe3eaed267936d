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
  /** As measured, cm²: of the factors in use. */
  areas: string[]
  calibrations: string[]
  /** Whether some of the work kept no calibration with it. */
  uncalibrated: boolean
}

/**
 * Instruments that readings or runs of these tests name: the calibrations kept with this work and the factors that its
 * standing results were computed with. What was entered since is not of this work.
 */
export function findInstruments(sql: RowsSql, testIds: readonly string[]): Promise<UsedInstrument[]> {
  return sql.rows<UsedInstrument>(
    `with used as (
       select r.instrument_id as id, r.calibration_id, t.method_key from reading r join test_event t on t.lab_id = r.lab_id and t.id = r.test_id
        where r.lab_id = $1::uuid and r.test_id = any($2::uuid[]) and r.instrument_id is not null
       union
       select u.instrument_id, u.calibration_id, t.method_key from equipment_use u
         left join step_event s on s.lab_id = u.lab_id and s.id = u.step_event_id
         left join reading r on r.lab_id = u.lab_id and r.id = u.reading_id
         join test_event t on t.lab_id = u.lab_id and t.id = coalesce(s.test_id, r.test_id)
        where u.lab_id = $1::uuid and t.id = any($2::uuid[])
     ),
     computed as (
       select distinct n.factor_id from result_input n join result r on r.lab_id = n.lab_id and r.id = n.result_id
        where n.lab_id = $1::uuid and n.factor_id is not null and r.test_id = any($2::uuid[])
          and not exists (select from result c where c.lab_id = r.lab_id and c.supersedes_id = r.id)
     )
     select i.code, i.name, i.kind, array_agg(distinct used.method_key order by used.method_key) as "usedFor",
            array(select f.value_text || ' ' || f.unit || ' for each g, ' || f.edition || ', from ' || f.effective_from from instrument_factor f
                   where f.lab_id = i.lab_id and f.instrument_id = i.id and f.id in (select factor_id from computed) order by f.unit, f.effective_from, f.id) as factors,
            array(select distinct f.measured_area::text from instrument_factor f
                   where f.lab_id = i.lab_id and f.instrument_id = i.id and f.measured_area is not null and f.id in (select factor_id from computed) order by 1) as areas,
            array(select 'certificate ' || c.certificate || ', valid until ' || c.valid_until from calibration c
                   where c.lab_id = i.lab_id and c.id in (select calibration_id from used where used.id = i.id) order by c.done_on, c.id) as calibrations,
            bool_or(used.calibration_id is null) as uncalibrated
       from used join instrument i on i.lab_id = $1::uuid and i.id = used.id
      group by i.lab_id, i.id, i.code, i.name, i.kind
      order by i.code`,
    [sql.actor.labId, testIds],
  )
}

export type UsedEquipment = { testId: string; codes: string[] }

/** What the standing acts of these tests were done in or on. */
export function findEquipment(sql: RowsSql, testIds: readonly string[]): Promise<UsedEquipment[]> {
  return sql.rows<UsedEquipment>(
    `select s.test_id as "testId", array_agg(distinct i.code order by i.code) as codes
       from step_event s
       join equipment_use u on u.lab_id = s.lab_id and u.step_event_id = s.id
       join instrument i on i.lab_id = u.lab_id and i.id = u.instrument_id
      where s.lab_id = $1::uuid and s.test_id = any($2::uuid[])
        and not exists (select from step_event c where c.lab_id = s.lab_id and c.supersedes_id = s.id)
      group by s.test_id order by s.test_id`,
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
