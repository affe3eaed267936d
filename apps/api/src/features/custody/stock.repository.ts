import type { MaterialKind } from '@curebook/contract/materials'
import type { LaboratoryTransaction } from '#platform/laboratory'

export type StockRow = {
  id: string
  code: string
  name: string
  materialKind: MaterialKind
  lot: string
  receivedOn: Date
  receivedG: string | null
  containers: string[]
  drawnG: string
  batches: number
  lostG: string
  disposed: boolean
  bags: { fraction: string | null; massG: string; made: number; unused: number }[]
}

/**
 * Samples with what came, what batches weighed out of them, and what their splits lost. A batch draws of a sample when the
 * revision it was planned in names the sample for that component; a batch that was voided later drew all the same.
 */
export function findStock({ prisma, actor }: LaboratoryTransaction): Promise<StockRow[]> {
  return prisma.$queryRaw<StockRow[]>`
    with recursive piece as (
      select i.id as sample_id, i.id as item_id, 0 as depth from item i
       where i.lab_id = ${actor.labId}::uuid and i.kind = 'sample'
      union
      select piece.sample_id, p.child_id, piece.depth + 1 from piece
        join item_parent p on p.lab_id = ${actor.labId}::uuid and p.parent_id = piece.item_id
        join item c on c.lab_id = p.lab_id and c.id = p.child_id and c.kind in ('split', 'bag')
       where piece.depth < 30
    ),
    drawn as (
      select c.item_id, sum(s.value) as mass, count(distinct t.id)::int as batches
        from design_revision r
       cross join lateral (values ('aggregate', r.aggregate_item_id), ('emulsion', r.emulsion_item_id),
         ('filler', r.filler_item_id), ('water', r.water_item_id), ('additive', r.additive_item_id)) c (component, item_id)
        join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key = 'batch'
        join slot_now s on s.lab_id = t.lab_id and s.test_id = t.id and s.step_key = 'weigh-components' and s.key = c.component
       where r.lab_id = ${actor.labId}::uuid
       group by c.item_id
    ),
    lost as (
      select piece.sample_id, sum(e.loss) as mass from piece
        join custody_event e on e.lab_id = ${actor.labId}::uuid and e.item_id = piece.item_id and e.loss is not null
       group by piece.sample_id
    ),
    bag as (
      select piece.sample_id, i.fraction, p.mass, count(*)::int as made,
             count(*) filter (where n.status in ('with', 'offered') and n.mass = p.mass and not exists (
               select from item_parent u where u.lab_id = i.lab_id and u.parent_id = i.id)
               and not exists (select from draw d where d.lab_id = i.lab_id and d.item_id = i.id))::int as unused
        from piece
        join item i on i.lab_id = ${actor.labId}::uuid and i.id = piece.item_id and i.kind = 'bag'
        join item_parent p on p.lab_id = i.lab_id and p.child_id = i.id
        left join item_now n on n.lab_id = i.lab_id and n.item_id = i.id
       group by piece.sample_id, i.fraction, p.mass
    )
    select i.id, i.code, coalesce(i.name, '') as name, i.material_kind as "materialKind", coalesce(i.lot, '') as lot,
           coalesce(i.received_on, i.made_at::date) as "receivedOn", trim_scale(came.mass)::text as "receivedG",
           coalesce(held.amounts, '{}') as containers, coalesce(trim_scale(drawn.mass), 0)::text as "drawnG",
           coalesce(drawn.batches, 0) as batches, coalesce(trim_scale(lost.mass), 0)::text as "lostG",
           coalesce(n.status = 'disposed', false) as disposed, coalesce(bags.list, '[]') as bags
      from item i
      left join item_now n on n.lab_id = i.lab_id and n.item_id = i.id
      left join drawn on drawn.item_id = i.id
      left join lost on lost.sample_id = i.id
      left join lateral (
        select coalesce(e.weighed, e.mass) as mass from custody_event e
         where e.lab_id = i.lab_id and e.item_id = i.id and e.kind in ('received', 'split') and e.mass is not null
           and not exists (select from custody_event c where c.lab_id = e.lab_id and c.supersedes_id = e.id)
         -- A receipt put right stands for the first link, whenever that was done.
         order by e.supersedes_id is not null desc, e.at, e.written_at, e.id limit 1
      ) came on true
      left join lateral (
        select array_agg(c.amount_text order by c.n) as amounts from receipt r
          join receipt_container c on c.lab_id = r.lab_id and c.receipt_id = r.id
         where r.lab_id = i.lab_id and r.item_id = i.id
           and not exists (select from custody_event s where s.lab_id = r.lab_id and s.supersedes_id = r.custody_event_id)
      ) held on true
      left join lateral (
        select json_agg(json_build_object('fraction', bag.fraction, 'massG', trim_scale(bag.mass)::text, 'made', bag.made,
                                          'unused', bag.unused) order by bag.mass desc) as list
          from bag where bag.sample_id = i.id
      ) bags on true
     where i.lab_id = ${actor.labId}::uuid and i.kind = 'sample' and i.material_kind is not null
     order by i.received_on desc, i.at desc, i.code`
}

export type OpenedRow = {
  sampleId: string
  id: string
  code: string
  fraction: string | null
  massG: string | null
  recordedG: string | null
}

/** Pieces out of which a batch was weighed by name, oldest first. */
export function findOpened({ prisma, actor }: LaboratoryTransaction): Promise<OpenedRow[]> {
  return prisma.$queryRaw<OpenedRow[]>`
    select i.source_id as "sampleId", i.id, i.code, i.fraction, trim_scale(p.mass)::text as "massG",
           trim_scale(n.mass)::text as "recordedG"
      from item i
      join item_parent p on p.lab_id = i.lab_id and p.child_id = i.id
      left join item_now n on n.lab_id = i.lab_id and n.item_id = i.id
     where i.lab_id = ${actor.labId}::uuid and i.kind in ('split', 'bag')
       and exists (select from draw d where d.lab_id = i.lab_id and d.item_id = i.id and d.named)
     order by i.at, i.code`
}
