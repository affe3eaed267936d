import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'

/** What a batch may be weighed out of for one component: the sample that its revision names, or a piece of it. */
export type SourceRow = {
  component: string
  sampleId: string
  itemId: string
  code: string
  kind: 'sample' | 'split' | 'bag'
  fraction: string | null
  recordedG: string | null
  /** Null where nobody has taken it yet. */
  status: string | null
}

const componentsOf = `cross join lateral (values ('aggregate', v.aggregate_item_id), ('emulsion', v.emulsion_item_id),
  ('filler', v.filler_item_id), ('water', v.water_item_id), ('additive', v.additive_item_id)) c (component, item_id)`

/** The samples of a revision and all that was set apart of them, oldest first. */
export function findSources(sql: RowsSql, revisionId: string): Promise<SourceRow[]> {
  return sql.rows<SourceRow>(
    `select c.component, c.item_id as "sampleId", i.id as "itemId", i.code, i.kind, i.fraction,
            trim_scale(n.mass)::text as "recordedG", n.status
       from design_revision v ${componentsOf}
       join item i on i.lab_id = v.lab_id and (i.id = c.item_id or i.source_id = c.item_id and i.kind in ('split', 'bag'))
       left join item_now n on n.lab_id = i.lab_id and n.item_id = i.id
      where v.lab_id = $1::uuid and v.id = $2::uuid
      order by i.kind = 'sample' desc, i.at, n.mass desc nulls last, i.code`,
    [sql.actor.labId, revisionId],
  )
}

/** The sample that a revision names for a component; null where it names none, or it is no component. */
export async function findSampleOf(sql: RowsSql, revisionId: string, component: string): Promise<string | null> {
  const [found] = await sql.rows<{ id: string | null }>(
    `select c.item_id as id from design_revision v ${componentsOf}
      where v.lab_id = $1::uuid and v.id = $2::uuid and c.component = $3`,
    [sql.actor.labId, revisionId, component],
  )
  return found?.id ?? null
}

export type DrawnItem = { id: string; code: string; kind: string; sampleId: string }

export async function findDrawnItem(sql: RowsSql, id: string): Promise<DrawnItem | null> {
  const [found] = await sql.rows<DrawnItem>(
    `select id, code, kind, coalesce(source_id, id) as "sampleId" from item where lab_id = $1::uuid and id = $2::uuid`,
    [sql.actor.labId, id],
  )
  return found ?? null
}

/** Holds who has the items until the end of the transaction. @returns each one's last act of custody */
export async function lockItems(sql: RowsSql, ids: readonly string[]): Promise<ReadonlyMap<string, string | null>> {
  const rows = await sql.rows<{ id: string; lastEventId: string | null }>(
    `select item_id as id, last_event_id as "lastEventId" from item_now
      where lab_id = $1::uuid and item_id = any($2::uuid[]) order by item_id for update`,
    [sql.actor.labId, ids],
  )
  return new Map(rows.map(({ id, lastEventId }) => [id, lastEventId]))
}

export type Draw = { itemId: string; named: boolean; afterEventId: string | null }

/** Out of which item a reading was weighed, where that is on record, and after which act of custody. */
export async function findDraw(sql: RowsSql, readingId: string): Promise<Draw | null> {
  const [found] = await sql.rows<Draw>(
    `select item_id as "itemId", named, after_event_id as "afterEventId" from draw
      where lab_id = $1::uuid and reading_id = $2::uuid`,
    [sql.actor.labId, readingId],
  )
  return found ?? null
}

export type NewDraw = {
  readonly readingId: string
  readonly itemId: string
  readonly named: boolean
  readonly afterEventId: string | null
  readonly givenBackAfterId: string | null
}

export async function insertDraw(sql: RowsSql, draw: NewDraw): Promise<LedgerRow> {
  const row = { labId: sql.actor.labId, ...draw }
  await sql.rows(
    `insert into draw (lab_id, reading_id, item_id, named, after_event_id, given_back_after_id)
     values ($1::uuid, $2::uuid, $3::uuid, $4, $5::uuid, $6::uuid)`,
    [row.labId, row.readingId, row.itemId, row.named, row.afterEventId, row.givenBackAfterId],
  )
  return ledgerContentOf('draw', row)
}

/** The items that weighings of a batch name and that stand, with the mass on record. */
export function findNamedOf(
  sql: RowsSql,
  testId: string,
): Promise<{ id: string; code: string; recordedG: string | null }[]> {
  return sql.rows(
    `select distinct i.id, i.code, trim_scale(n.mass)::text as "recordedG" from slot_now s
       join draw d on d.lab_id = s.lab_id and d.reading_id = s.reading_id and d.named
       join item i on i.lab_id = d.lab_id and i.id = d.item_id
       left join item_now n on n.lab_id = i.lab_id and n.item_id = i.id
      where s.lab_id = $1::uuid and s.test_id = $2::uuid
      order by i.code`,
    [sql.actor.labId, testId],
  )
}
