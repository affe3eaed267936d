import type { Deviation } from '@curebook/contract/deviations'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { newId } from '#platform/uuid'

/** SQL: whether a deviation is linked to a test of a design. */
export const linkedTo = (deviationId: string, designId: string) => `exists (
  select from deviation_test l
    join test_event lt on lt.lab_id = l.lab_id and lt.id = l.test_id
    join design_revision lr on lr.lab_id = lt.lab_id and lr.id = lt.design_revision_id
   where l.lab_id = $1::uuid and l.deviation_id = ${deviationId} and lr.design_id = ${designId})`

/**
 * SQL: whether an item is of a design: a material of it, a piece split off one, or the batch or specimen of one of its tests.
 * What happens to an item of no test (a gap in its custody) is told to the designs that are made of it.
 */
export const itemOf = (itemId: string, designId: string) => `${itemId} in (
  with recursive used (item_id) as (
    select m.item_id from design_revision ur
      cross join lateral (values (ur.aggregate_item_id), (ur.emulsion_item_id), (ur.filler_item_id), (ur.water_item_id), (ur.additive_item_id)) m (item_id)
     where ur.lab_id = $1::uuid and ur.design_id = ${designId} and m.item_id is not null
    union
    select up.child_id from used
      join item_parent up on up.lab_id = $1::uuid and up.parent_id = used.item_id
      join item ui on ui.lab_id = up.lab_id and ui.id = up.child_id and ui.kind in ('split', 'bag')
  )
  select item_id from used
  union
  select ut.item_id from test_event ut join design_revision ur on ur.lab_id = ut.lab_id and ur.id = ut.design_revision_id
   where ut.lab_id = $1::uuid and ur.design_id = ${designId})`

/** The specimens that deviations of a whole oven or bath are about. */
export async function findLinked(
  sql: RowsSql,
  deviationIds: readonly string[],
): Promise<ReadonlyMap<string, Deviation['specimens']>> {
  if (deviationIds.length === 0) return new Map()
  const rows = await sql.rows<Deviation['specimens'][number] & { deviationId: string }>(
    `select l.deviation_id as "deviationId", t.id as "testId", i.code as "itemCode", t.label, g.id as "designId", g.name as "designName"
       from deviation_test l
       join test_event t on t.lab_id = l.lab_id and t.id = l.test_id
       join item i on i.lab_id = t.lab_id and i.id = t.item_id
       left join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
       left join design g on g.lab_id = r.lab_id and g.id = r.design_id
      where l.lab_id = $1::uuid and l.deviation_id = any($2::uuid[])
      order by t.label, i.code`,
    [sql.actor.labId, deviationIds],
  )
  const linked = new Map<string, Deviation['specimens']>()
  for (const { deviationId, ...specimen } of rows)
    linked.set(deviationId, [...(linked.get(deviationId) ?? []), specimen])
  return linked
}

/** Decisions on a deviation, and what makes it grow, follow one another, also where no test's row can be locked. */
export async function lockDeviation(sql: RowsSql, id: string): Promise<void> {
  await sql.rows('select pg_advisory_xact_lock(hashtextextended($1, 0))', [`deviation ${id}`])
}

export type LinkedTest = { readonly testId: string; readonly loadId: string | null }

/** What a deviation of many specimens says. The text is printed for each of their clients; the word stays inside. */
export type NewLinked = {
  readonly kind?: 'condition' | 'calibration' | 'competence'
  readonly text: string
  readonly insideWord?: string | null
  readonly instrumentId: string | null
  readonly readingId?: string | null
  readonly tests: readonly LinkedTest[]
}

/** Opens one deviation about an oven or bath and the specimens in it. @returns its id and its rows for the ledger */
export async function openLinked(
  sql: RowsSql,
  { kind = 'condition', text, insideWord = null, instrumentId, readingId = null, tests }: NewLinked,
): Promise<{ id: string; rows: LedgerRow[] }> {
  const row = {
    labId: sql.actor.labId,
    id: newId(),
    kind,
    openedByRule: true,
    instrumentId,
    readingId,
    text,
    insideWord,
    at: sql.at,
  }
  await sql.rows(
    `insert into deviation (lab_id, id, kind, opened_by_rule, instrument_id, reading_id, text, inside_word, at)
     values ($1::uuid, $2::uuid, $3, true, $4::uuid, $5::uuid, $6, $7, $8::timestamptz)`,
    [row.labId, row.id, row.kind, row.instrumentId, row.readingId, row.text, row.insideWord, row.at],
  )
  return { id: row.id, rows: [ledgerContentOf('deviation', row), ...(await linkTests(sql, row.id, tests))] }
}

/** Adds specimens to a deviation; those that are there already stay as they are. */
export async function linkTests(sql: RowsSql, deviationId: string, tests: readonly LinkedTest[]): Promise<LedgerRow[]> {
  const written = await sql.rows<{ testId: string; loadId: string | null }>(
    `insert into deviation_test (lab_id, deviation_id, test_id, load_id, at)
     select $1::uuid, $2::uuid, t, l, $5::timestamptz from unnest($3::uuid[], $4::uuid[]) as given (t, l)
     on conflict (lab_id, deviation_id, test_id) do nothing
     returning test_id as "testId", load_id as "loadId"`,
    [sql.actor.labId, deviationId, tests.map(({ testId }) => testId), tests.map(({ loadId }) => loadId), sql.at],
  )
  return written.map((row) =>
    ledgerContentOf('deviation_test', { labId: sql.actor.labId, deviationId, ...row, at: sql.at }),
  )
}
