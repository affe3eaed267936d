import { mayTest } from '@curebook/trade/custody/apply-act'
import type { RowsSql } from '#platform/sql-rows'
import { lastEventColumns, lastEventNames, stateAfter, type LastEvent } from './standing.ts'

type Asked = { readonly itemId: string; readonly methodKey: string; readonly at: Date }
type Found = LastEvent & { readonly itemId: string; readonly code: string }

/** Instants of a device's second and the server's differ by the way between them. */
const leewayMs = 1000

/**
 * Why a reading on an item at an instant is outside custody, in a sentence; null where it is inside, or where nobody has
 * recorded any custody of it yet. A batch is judged by the samples that it is made of: one of them, or a piece of it, must
 * be in the laboratory's care.
 */
export async function custodyFaultIn(sql: RowsSql, { itemId, methodKey, at }: Asked): Promise<string | null> {
  const until = new Date(at.getTime() + leewayMs)
  const [own] = await findStandings(sql, [itemId], until)
  if (own) return faultOf(own)
  return methodKey === 'batch' ? await faultOfSamples(sql, itemId, until) : null
}

/** Why a bag was not in the laboratory's care at the instant at which a batch was weighed out of it; null where it was. */
export async function bagFaultIn(sql: RowsSql, itemId: string, at: Date): Promise<string | null> {
  const [bag] = await findStandings(sql, [itemId], new Date(at.getTime() + leewayMs))
  const fault = bag ? faultOf(bag) : null
  return fault === null ? null : `Its material ${bag!.code}: ${fault}`
}

async function faultOfSamples(sql: RowsSql, batchId: string, until: Date): Promise<string | null> {
  const pieces = await sql.rows<{ sampleId: string; itemId: string }>(
    `with recursive piece as (
       select parent_id as sample_id, parent_id as item_id, 0 as depth from item_parent
        where lab_id = $1::uuid and child_id = $2::uuid
       union
       select piece.sample_id, p.child_id, piece.depth + 1 from piece
         join item_parent p on p.lab_id = $1::uuid and p.parent_id = piece.item_id
         join item c on c.lab_id = p.lab_id and c.id = p.child_id and c.kind in ('split', 'bag')
        where piece.depth < 30
     ) select sample_id as "sampleId", item_id as "itemId" from piece`,
    [sql.actor.labId, batchId],
  )
  const ids = pieces.map(({ itemId }) => itemId)
  const standings = new Map((await findStandings(sql, ids, until)).map((found) => [found.itemId, found]))
  for (const sampleId of new Set(pieces.map((piece) => piece.sampleId))) {
    const sample = standings.get(sampleId)
    if (!sample) continue
    const family = pieces
      .filter((piece) => piece.sampleId === sampleId)
      .flatMap(({ itemId }) => standings.get(itemId) ?? [])
    if (family.every((member) => faultOf(member) !== null)) return `Its material ${sample.code}: ${faultOf(sample)}`
  }
  return null
}

/** The last event of each item up to an instant, by when it happened. */
function findStandings(sql: RowsSql, itemIds: readonly string[], until: Date): Promise<Found[]> {
  return sql.rows(
    `select i.id as "itemId", i.code, e.* from item i
      cross join lateral (
        select ${lastEventColumns} from custody_event e ${lastEventNames}
         where e.lab_id = i.lab_id and e.item_id = i.id and e.supersedes_id is null
           and e.event_at + coalesce(e.offset_ms, 0) * interval '1 millisecond' <= $3::timestamptz
         order by e.at desc, e.written_at desc, e.id desc limit 1
      ) e
      where i.lab_id = $1::uuid and i.id = any($2::uuid[])`,
    [sql.actor.labId, itemIds, until],
  )
}

/** An item of which nothing is left under its own code is in custody all the same: its pieces were used. */
function faultOf(last: LastEvent): string | null {
  const test = mayTest(stateAfter(last))
  return test.ok || test.code === 'used-up' ? null : test.sentence
}
