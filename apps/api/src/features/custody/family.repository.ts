import type { Ancestor, DescendantSpecimens } from '@curebook/contract/custody'
import type { LaboratoryTransaction } from '#platform/laboratory'

/**
 * What an item was made of, line by line up to what was received. The mass stands in the line where a split stated it, and
 * in the batch's own weighing where a batch took it.
 */
export function findAncestors({ prisma, actor }: LaboratoryTransaction, itemId: string): Promise<Ancestor[]> {
  return prisma.$queryRaw<Ancestor[]>`
    with recursive named as (
      select t.item_id as child_id, d.item_id as parent_id, s.value as mass, 1 as depth from test_event t
        join slot_now s on s.lab_id = t.lab_id and s.test_id = t.id and s.step_key = 'weigh-components'
        join draw d on d.lab_id = s.lab_id and d.reading_id = s.reading_id and d.named
        join item i on i.lab_id = d.lab_id and i.id = d.item_id and i.kind in ('split', 'bag')
       where t.lab_id = ${actor.labId}::uuid and t.method_key = 'batch'
         and t.item_id in (select ${itemId}::uuid union select p.parent_id from item_parent p
                            where p.lab_id = t.lab_id and p.child_id = ${itemId}::uuid)
    ),
    up as (
      (select child_id, parent_id, mass, 1 as depth from item_parent
        where lab_id = ${actor.labId}::uuid and child_id = ${itemId}::uuid
       union
       select child_id, parent_id, mass, case when child_id = ${itemId}::uuid then 1 else 2 end from named)
      union
      select p.child_id, p.parent_id, p.mass, up.depth + 1 from item_parent p join up on p.child_id = up.parent_id
       where p.lab_id = ${actor.labId}::uuid and up.depth < 30
    )
    select up.child_id as "childId", i.id, i.code, i.kind, coalesce(i.name, '') as name, i.material_kind as "materialKind",
           trim_scale(coalesce(up.mass, weighed.value))::text as "massG"
      from up
      join item i on i.lab_id = ${actor.labId}::uuid and i.id = up.parent_id
      left join lateral (
        select s.value from test_event t
          join slot_now s on s.lab_id = t.lab_id and s.test_id = t.id and s.step_key = 'weigh-components'
         where t.lab_id = ${actor.labId}::uuid and t.item_id = up.child_id and t.method_key = 'batch'
           and s.key = i.material_kind
         order by s.repeat limit 1
      ) weighed on true
     order by up.depth, i.material_kind, i.code`
}

export type PieceRow = {
  id: string
  parentId: string
  code: string
  kind: 'split' | 'bag'
  name: string
  fraction: string | null
  massG: string | null
  leftG: string | null
  status: string | null
  custodian: string | null
}

/** Splits and bags that were made of an item, and of its pieces in turn. */
export function findPieces({ prisma, actor }: LaboratoryTransaction, itemId: string): Promise<PieceRow[]> {
  return prisma.$queryRaw<PieceRow[]>`
    with recursive down as (
      select p.child_id, p.parent_id, p.mass, 1 as depth from item_parent p
        join item i on i.lab_id = p.lab_id and i.id = p.child_id and i.kind in ('split', 'bag')
       where p.lab_id = ${actor.labId}::uuid and p.parent_id = ${itemId}::uuid
      union
      select p.child_id, p.parent_id, p.mass, down.depth + 1 from item_parent p
        join down on p.parent_id = down.child_id
        join item i on i.lab_id = p.lab_id and i.id = p.child_id and i.kind in ('split', 'bag')
       where p.lab_id = ${actor.labId}::uuid and down.depth < 30
    )
    select i.id, down.parent_id as "parentId", i.code, i.kind, coalesce(i.name, '') as name, i.fraction,
           trim_scale(down.mass)::text as "massG", trim_scale(n.mass)::text as "leftG", n.status,
           coalesce(m.name, pl.name, n.party) as custodian
      from down
      join item i on i.lab_id = ${actor.labId}::uuid and i.id = down.child_id
      left join item_now n on n.lab_id = i.lab_id and n.item_id = i.id
      left join membership m on m.lab_id = n.lab_id and m.id = n.custodian_id
      left join place pl on pl.lab_id = n.lab_id and pl.id = n.place_id
     order by down.depth, i.at, i.kind desc, down.mass desc, i.code`
}

/** How many batches descend from an item. */
export async function countBatches({ prisma, actor }: LaboratoryTransaction, itemId: string): Promise<number> {
  const [row] = await prisma.$queryRaw<[{ count: number }]>`
    with recursive down as (
      select child_id from item_parent where lab_id = ${actor.labId}::uuid and parent_id = ${itemId}::uuid
      union
      select p.child_id from item_parent p join down on p.parent_id = down.child_id where p.lab_id = ${actor.labId}::uuid
    )
    select count(*)::int as count from down
      join item i on i.lab_id = ${actor.labId}::uuid and i.id = down.child_id and i.kind = 'batch'`
  return row.count
}

/** Specimens that descend from an item, by the mix and the form they were cast in; those made of the materials have no mix. */
export function findSpecimens(
  { prisma, actor }: LaboratoryTransaction,
  itemId: string,
): Promise<DescendantSpecimens[]> {
  return prisma.$queryRaw<DescendantSpecimens[]>`
    with recursive down as (
      select child_id from item_parent where lab_id = ${actor.labId}::uuid and parent_id = ${itemId}::uuid
      union
      select p.child_id from item_parent p join down on p.parent_id = down.child_id where p.lab_id = ${actor.labId}::uuid
    )
    select g.id as "designId", g.name as "designName", m.id as "mixId", m.emulsion_percent_text as "emulsionPercent",
           coalesce(i.form, '') as form, count(*)::int as count, array_agg(i.code order by i.code) as codes
      from down
      join item i on i.lab_id = ${actor.labId}::uuid and i.id = down.child_id and i.kind = 'specimen'
      left join mix m on m.lab_id = i.lab_id and m.id = i.mix_id
      join lateral (
        select t.design_revision_id from test_event t where t.lab_id = i.lab_id and t.item_id = i.id order by t.at, t.id limit 1
      ) own on true
      join design_revision r on r.lab_id = i.lab_id and r.id = own.design_revision_id
      join design g on g.lab_id = r.lab_id and g.id = r.design_id
     group by g.id, g.name, m.id, m.emulsion_percent, m.emulsion_percent_text, i.form
     order by g.name, g.id, m.emulsion_percent, i.form`
}

/** Tests done on the item itself, in the order in which they were planned. */
export function findTests(
  { prisma, actor }: LaboratoryTransaction,
  itemId: string,
): Promise<{ id: string; methodKey: string; label: string; state: string }[]> {
  return prisma.$queryRaw`
    select t.id, t.method_key as "methodKey", coalesce(t.label, '') as label, n.state
      from test_event t
      join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
     where t.lab_id = ${actor.labId}::uuid and t.item_id = ${itemId}::uuid
     order by t.at, t.method_key, t.replicate, t.id`
}
