import type { Found } from '@curebook/contract/search'
import type { RowsSql } from '#platform/sql-rows'

/** So many of each kind: a list that is read at a glance. Own setting. */
const ofEachKind = 6

/**
 * Whatever has the words in one of its fields, each thing once, by the field that it matches best. Signs are compared as they
 * are: a `%` finds a `%`. A batch is written as its specimen with `.B`, and both are found under the specimen.
 */
export async function findAnything(sql: RowsSql, q: string): Promise<Found[]> {
  return sql.rows<Found>(
    `with fields as (
       select 'specimen' as kind, t.id, i.code || ' (' || t.label || ')' as title, d.name || ', ' || p.name as under, f.why, f.text,
              case when f.why = 'code' then $3 else $2 end as wanted
         from test_event t join item i on i.lab_id = t.lab_id and i.id = t.item_id and i.kind = 'specimen'
         join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
         join design d on d.lab_id = r.lab_id and d.id = r.design_id
         join project p on p.lab_id = d.lab_id and p.id = d.project_id
        cross join lateral (values ('code', i.code), ('label', t.label)) f(why, text)
        where t.lab_id = $1::uuid
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
    [sql.actor.labId, q, q.replace(/\.b$/i, '')],
  )
}
