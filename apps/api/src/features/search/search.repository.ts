import type { Found } from '@curebook/contract/search'
import type { RowsSql } from '#platform/sql-rows'

/** So many of each kind: a list that is read at a glance. Own setting. */
const ofEachKind = 6

/** As labels are written: content and replicate. Only then are labels looked through, which no index holds. */
const labelled = /^\d+([.,]\d*)?-\d*$/

/**
 * Whatever has the words in one of its fields, each thing once, by the field that it matches best. Signs are compared as they
 * are: a `%` finds a `%`. A batch is written as its specimen with `.B`, and both are found under the specimen.
 * A specimen's code is found from its beginning on, by its index: specimens are the one thing that a laboratory has too many of.
 */
export async function findAnything(sql: RowsSql, q: string): Promise<Found[]> {
  return sql.rows<Found>(
    `with fields as (
       select 'specimen' as kind, t.id, i.code || ' (' || t.label || ')' as title, d.name || ', ' || p.name as under, s.why, s.text, s.wanted
         from (
           select i.id, 'code' as why, i.code as text, $3::text as wanted from item i
            where i.lab_id = $1::uuid and i.kind = 'specimen' and i.code >= upper($3) and i.code < upper($3) || 'zzzz'
           union all
           select t.item_id, 'label', t.label, $2 from test_event t
            where $4::boolean and t.lab_id = $1::uuid and starts_with(t.label, $2)) s
         join item i on i.lab_id = $1::uuid and i.id = s.id and i.kind = 'specimen'
         join test_event t on t.lab_id = i.lab_id and t.item_id = i.id
         join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
         join design d on d.lab_id = r.lab_id and d.id = r.design_id
         join project p on p.lab_id = d.lab_id and p.id = d.project_id
       union all
       select 'sample', i.id, coalesce(i.name, i.code) || ' (' || i.code || ')', concat_ws(', ', i.material_kind, i.supplier), f.why, f.text, $2
         from item i cross join lateral (values ('code', i.code), ('name', i.name), ('lot', i.lot), ('supplier', i.supplier)) f(why, text)
        where i.lab_id = $1::uuid and i.kind = 'sample'
       union all
       select 'project', p.id, p.name || ' (' || p.code || ')', c.name, f.why, f.text, $2
         from project p join client c on c.lab_id = p.lab_id and c.id = p.client_id
        cross join lateral (values ('code', p.code), ('name', p.name), ('client', c.name)) f(why, text)
        where p.lab_id = $1::uuid
       union all
       select 'design', d.id, d.name, p.name, 'name', d.name, $2
         from design d join project p on p.lab_id = d.lab_id and p.id = d.project_id where d.lab_id = $1::uuid
       union all
       select 'person', m.id, m.name, array_to_string(m.roles, ', '), f.why, f.text, $2
         from membership m cross join lateral (values ('name', m.name), ('initials', m.initials)) f(why, text)
        where m.lab_id = $1::uuid
     ),
     found as (
       select *, case when lower(text) = lower(wanted) then 0 when starts_with(lower(text), lower(wanted)) then 1 else 2 end as rank
         from fields where position(lower(wanted) in lower(text)) > 0
     ),
     best as (select distinct on (kind, id) * from found order by kind, id, rank, why),
     listed as (select *, row_number() over (partition by kind order by rank, title, id) as place from best)
     select kind, id, title, under, why, text as matched from listed where place <= ${ofEachKind}
      order by rank, array_position(array['specimen', 'project', 'design', 'sample', 'person'], kind), title, id`,
    [sql.actor.labId, q, q.replace(/\.b$/i, ''), labelled.test(q)],
  )
}
