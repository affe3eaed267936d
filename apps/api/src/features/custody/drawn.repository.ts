import type { Move } from '@curebook/trade/custody/drawn'
import type { LaboratoryTransaction } from '#platform/laboratory'

/**
 * What batches weighed out of an item and what was set apart of it, in the order in which it was recorded. A correction
 * counts by its difference. `since`: recorded after the item's last act of custody.
 */
export function findMoves({ prisma, actor }: LaboratoryTransaction, itemId: string): Promise<Move[]> {
  return prisma.$queryRaw<Move[]>`
    with last as (
      select e.written_at from item_now n
        join custody_event e on e.lab_id = n.lab_id and e.id = n.last_event_id
       where n.lab_id = ${actor.labId}::uuid and n.item_id = ${itemId}::uuid
    ),
    move as (
      select 'drawn' as kind, r.value - coalesce(before.value, 0) as mass, r.written_at
        from design_revision d
       cross join lateral (values ('aggregate', d.aggregate_item_id), ('emulsion', d.emulsion_item_id),
         ('filler', d.filler_item_id), ('water', d.water_item_id), ('additive', d.additive_item_id)) c (component, item_id)
        join test_event t on t.lab_id = d.lab_id and t.design_revision_id = d.id and t.method_key = 'batch'
        join reading r on r.lab_id = t.lab_id and r.test_id = t.id and r.step_key = 'weigh-components' and r.key = c.component
        left join reading before on before.lab_id = r.lab_id and before.id = r.supersedes_id
       where d.lab_id = ${actor.labId}::uuid and c.item_id = ${itemId}::uuid and r.value is not null
      union all
      select 'piece', p.mass, p.written_at from item_parent p
        join item i on i.lab_id = p.lab_id and i.id = p.child_id and i.kind in ('split', 'bag')
       where p.lab_id = ${actor.labId}::uuid and p.parent_id = ${itemId}::uuid and p.mass is not null
    )
    select move.kind, trim_scale(move.mass)::text as "massG",
           coalesce(move.written_at > (select written_at from last), true) as since
      from move order by move.written_at`
}
