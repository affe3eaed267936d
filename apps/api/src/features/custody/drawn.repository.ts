import type { Move } from '@curebook/trade/custody/drawn'
import type { RowsSql } from '#platform/sql-rows'

/** Pieces of the items of `$2`, with themselves: `piece (root_id, item_id, depth)`. */
const pieces = `piece as (
  select i.id as root_id, i.id as item_id, 0 as depth from item i where i.lab_id = $1::uuid and i.id = any($2::uuid[])
  union
  select piece.root_id, p.child_id, piece.depth + 1 from piece
    join item_parent p on p.lab_id = $1::uuid and p.parent_id = piece.item_id
    join item c on c.lab_id = p.lab_id and c.id = p.child_id and c.kind in ('split', 'bag')
   where piece.depth < 30
)`

/**
 * What batches weighed of the samples that the items of `$2` descend from: `weighing`, a row for each reading. It is of the
 * item that it names, or else of the sample that the revision names for the component. A batch that was voided later drew
 * all the same; a weighing that was taken back drew nothing.
 */
const weighings = `weighing as (
  select r.id as reading_id, r.supersedes_id, t.id as test_id, t.item_id as batch_id, r.key as component,
         case when x.id is null then r.value else 0 end as value, x.id is not null as withdrawn, r.typed,
         r.event_at, r.by_id, r.written_at, coalesce(d.item_id, c.item_id) as item_id, coalesce(d.named, false) as named,
         d.after_event_id, d.given_back_after_id
    from (select distinct coalesce(i.source_id, i.id) as id from item i
           where i.lab_id = $1::uuid and i.id = any($2::uuid[])) sample
    join design_revision v on v.lab_id = $1::uuid
         and sample.id in (v.aggregate_item_id, v.emulsion_item_id, v.filler_item_id, v.water_item_id, v.additive_item_id)
   cross join lateral (values ('aggregate', v.aggregate_item_id), ('emulsion', v.emulsion_item_id),
     ('filler', v.filler_item_id), ('water', v.water_item_id), ('additive', v.additive_item_id)) c (component, item_id)
    join test_event t on t.lab_id = v.lab_id and t.design_revision_id = v.id and t.method_key = 'batch'
    join reading r on r.lab_id = t.lab_id and r.test_id = t.id and r.step_key = 'weigh-components' and r.key = c.component
    left join draw d on d.lab_id = r.lab_id and d.reading_id = r.id
    left join reading_withdrawal x on x.lab_id = r.lab_id and x.reading_id = r.id
   where c.item_id = sample.id and r.value is not null
)`

/**
 * A correction counts by its difference; one that names another item gives the whole back to the one named before. Links
 * of custody are told apart by what was the last one when it was weighed, under the item's lock: two instants can be one.
 */
const lines = `line as (
  select w.item_id, w.named, w.value - case when b.reading_id is null or (b.item_id, b.named) is distinct from (w.item_id, w.named)
           then 0 else b.value end as mass, w.after_event_id as after_id, w.written_at
    from weighing w left join weighing b on b.reading_id = w.supersedes_id
  union all
  select b.item_id, b.named, -b.value, coalesce(w.given_back_after_id, w.after_event_id), w.written_at
    from weighing w join weighing b on b.reading_id = w.supersedes_id
   where (b.item_id, b.named) is distinct from (w.item_id, w.named)
)`

type MoveRow = {
  rootId: string
  kind: Move['kind']
  from: 'item' | 'piece' | 'unnamed' | null
  massG: string
  since: boolean | null
  disposed: boolean | null
}

/** By item, what batches drew of it and its pieces, what was set apart, lost and sent away, in the order of the record. */
export async function findMoves(sql: RowsSql, itemIds: readonly string[]): Promise<ReadonlyMap<string, Move[]>> {
  const rows = await sql.rows<MoveRow>(
    `with recursive ${pieces}, ${weighings}, ${lines},
     last as (
       select n.item_id, e.id, e.written_at from item_now n
         join custody_event e on e.lab_id = n.lab_id and e.id = n.last_event_id
        where n.lab_id = $1::uuid and n.item_id = any($2::uuid[])
     ),
     away as (
       select piece.root_id, n.item_id, n.status, stood.id, stood.mass, stood.at, stood.written_at, gone.written_at as gone_at
         from piece
         join item_now n on n.lab_id = $1::uuid and n.item_id = piece.item_id and n.status in ('sent', 'returned', 'disposed')
         join custody_event gone on gone.lab_id = n.lab_id and gone.id = n.last_event_id
        cross join lateral (
          select e.id, e.mass, e.at, e.written_at from custody_event e
           where e.lab_id = n.lab_id and e.item_id = n.item_id and e.mass is not null
           order by e.at desc, e.written_at desc, e.id desc limit 1
        ) stood
        where piece.depth > 0
     ),
     move as (
       select piece.root_id, 'drawn' as kind,
              case when piece.depth > 0 then 'piece' when line.named then 'item' else 'unnamed' end as "from", line.mass,
              case when line.after_id is null then coalesce(line.written_at > last.written_at, true)
                   else line.after_id = last.id end as since, null::boolean as disposed, line.written_at
         from line
         join piece on piece.item_id = line.item_id
         left join last on last.item_id = piece.root_id
       union all
       select piece.root_id, 'piece', null, p.mass, null, null, p.written_at from piece
         join item_parent p on p.lab_id = $1::uuid and p.child_id = piece.item_id and p.parent_id = piece.root_id
        where piece.depth = 1 and p.mass is not null
       union all
       select piece.root_id, 'lost', null, e.loss, null, null, e.written_at from piece
         join custody_event e on e.lab_id = $1::uuid and e.item_id = piece.item_id and e.loss > 0
        where piece.depth > 0
       union all
       select away.root_id, 'away', null, greatest(away.mass - coalesce((
                select sum(line.mass) from line
                  left join custody_event e on e.lab_id = $1::uuid and e.id = line.after_id
                 where line.item_id = away.item_id
                   and case when e.id is null then line.written_at > away.written_at
                            else e.id = away.id or (e.at, e.written_at, e.id) > (away.at, away.written_at, away.id) end), 0), 0),
              null, away.status = 'disposed', away.gone_at
         from away
     )
     select root_id as "rootId", kind, "from", trim_scale(mass)::text as "massG", since, disposed
       -- What one reading gives back comes before what it draws: both were written at one instant.
       from move order by written_at, kind = 'drawn' and mass < 0 desc, kind, mass`,
    [sql.actor.labId, itemIds],
  )
  const moves = new Map<string, Move[]>(itemIds.map((id) => [id, []]))
  for (const { rootId, ...row } of rows) moves.get(rootId)?.push(toMove(row))
  return moves
}

function toMove({ kind, from, massG, since, disposed }: Omit<MoveRow, 'rootId'>): Move {
  if (kind === 'drawn') return { kind, from: from!, massG, since: since! }
  return kind === 'away' ? { kind, massG, disposed: disposed! } : { kind, massG }
}

export type DrawRow = {
  rootId: string
  itemId: string
  itemCode: string
  named: boolean
  testId: string
  batchId: string
  batchCode: string
  component: string
  massG: string
  typed: string
  at: Date
  by: string
}

/** Weighings that stand, of items or of their pieces, in the order in which they were recorded. */
export async function findDraws(sql: RowsSql, itemIds: readonly string[]): Promise<DrawRow[]> {
  return sql.rows<DrawRow>(
    `with recursive ${pieces}, ${weighings}
     select piece.root_id as "rootId", w.item_id as "itemId", i.code as "itemCode", w.named, w.test_id as "testId",
            w.batch_id as "batchId", b.code as "batchCode", w.component, trim_scale(w.value)::text as "massG", w.typed,
            w.event_at as at, m.name as by
       from weighing w
       join piece on piece.item_id = w.item_id
       join item i on i.lab_id = $1::uuid and i.id = w.item_id
       join item b on b.lab_id = $1::uuid and b.id = w.batch_id
       join membership m on m.lab_id = $1::uuid and m.id = w.by_id
      where not w.withdrawn and not exists (select from weighing c where c.supersedes_id = w.reading_id)
      order by w.written_at, b.code, w.reading_id`,
    [sql.actor.labId, itemIds],
  )
}
