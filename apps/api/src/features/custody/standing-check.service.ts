import type { CustodyState } from '@curebook/trade/custody/custody'
import { systemActor } from '#platform/actor'
import type { Laboratory, LaboratorySql } from '#platform/laboratory'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { lastEventColumns, lastEventNames, stateAfter, type LastEvent } from './standing.ts'

export type StandingDifference = {
  readonly itemId: string
  readonly code: string
  readonly stored: string
  readonly rebuilt: string
}

type Row = LastEvent & {
  readonly itemId: string
  readonly code: string
  readonly eventId: string
  readonly stored: string | null
}

/** Who has what now, against the custody events that it is made from. */
export function createStandingCheck({ laboratory }: { laboratory: Laboratory }) {
  const inRows = <T>(labId: string, work: (sql: RowsSql) => Promise<T>): Promise<T> =>
    // Nobody's act: the product itself reads and rebuilds.
    laboratory.inLaboratorySql(systemActor(labId), (sql) => work(rowsSql(sql as unknown as LaboratorySql)))

  const differences = async (sql: RowsSql): Promise<(StandingDifference & { columns: Columns })[]> =>
    (await findLast(sql)).flatMap((row) => {
      const columns = columnsOf(row, stateAfter(row))
      const rebuilt = wordsOf(columns)
      return rebuilt === row.stored
        ? []
        : [{ itemId: row.itemId, code: row.code, stored: row.stored ?? 'nothing', rebuilt, columns }]
    })

  return {
    check: (labId: string): Promise<readonly StandingDifference[]> => inRows(labId, differences),

    rebuild: (labId: string): Promise<void> =>
      inRows(labId, async (sql) => {
        // Held before they are looked at: an act of custody at this moment comes before or after, and is not written over.
        await sql.rows('select item_id from item_now where lab_id = $1::uuid order by item_id for update', [labId])
        for (const { itemId, columns } of await differences(sql)) await saveStanding(sql, itemId, columns)
      }),
  }
}

type Columns = {
  readonly custodianId: string | null
  readonly placeId: string | null
  readonly party: string | null
  readonly massG: string | null
  readonly status: string
  readonly eventId: string
}

function columnsOf({ kind, eventId }: Row, state: CustodyState): Columns {
  const nobody = { custodianId: null, placeId: null, party: null, massG: null, eventId }
  if (state.status === 'disposed' || state.status === 'not-begun') return { ...nobody, status: 'disposed' }
  const { custodian, massG } = state
  if (custodian.kind === 'party')
    return { ...nobody, massG, party: custodian.name, status: kind === 'returned' ? 'returned' : 'sent' }
  return {
    ...nobody,
    massG,
    ...(custodian.kind === 'person' ? { custodianId: custodian.id } : { placeId: custodian.id }),
    ...(state.status === 'offered' ? { party: state.to.name, status: 'offered' } : { status: 'with' }),
  }
}

function wordsOf({ status, custodianId, placeId, party, massG, eventId }: Columns): string {
  return [status, custodianId ?? '', placeId ?? '', party ?? '', massG ?? '', eventId].join('|')
}

/** The last event of every item in custody, beside what the projection says of it. */
function findLast(sql: RowsSql): Promise<Row[]> {
  return sql.rows<Row>(
    `select i.id as "itemId", i.code, e.*,
            case when n.item_id is null then null else concat_ws('|', n.status, coalesce(n.custodian_id::text, ''),
              coalesce(n.place_id::text, ''), coalesce(n.party, ''), coalesce(trim_scale(n.mass)::text, ''),
              coalesce(n.last_event_id::text, '')) end as stored
       from item i
       join lateral (
         select e.id as "eventId", ${lastEventColumns} from (
           select l.lab_id, l.id, l.kind, l.from_member_id, l.from_place_id, l.to_party,
                  case when c.after_id = l.id then c.standing_mass else l.mass end as mass,
                  case when c.id is not null and l.earlier = 0 then c.to_member_id else l.to_member_id end as to_member_id,
                  case when c.id is not null and l.earlier = 0 then c.to_place_id else l.to_place_id end as to_place_id
             from (select k.*, row_number() over (order by k.at, k.written_at, k.id) - 1 as earlier from custody_event k
                    where k.lab_id = i.lab_id and k.item_id = i.id and k.supersedes_id is null) l
             -- A receipt put right moves no link that came after it, but the mass, and who has it where none came.
             left join custody_event c on c.lab_id = l.lab_id and c.item_id = i.id and c.supersedes_id is not null
                  and not exists (select from custody_event d where d.lab_id = c.lab_id and d.supersedes_id = c.id)
            order by l.earlier desc limit 1
         ) e ${lastEventNames}
       ) e on true
       left join item_now n on n.lab_id = i.lab_id and n.item_id = i.id
      where i.lab_id = $1::uuid
      order by i.code`,
    [sql.actor.labId],
  )
}

async function saveStanding(sql: RowsSql, itemId: string, columns: Columns): Promise<void> {
  const { custodianId, placeId, party, massG, status, eventId } = columns
  await sql.rows(
    `insert into item_now (lab_id, item_id, custodian_id, place_id, party, mass, status, last_event_id)
     values ($1::uuid, $2::uuid, $3::uuid, $4::uuid, $5, $6::numeric, $7, $8::uuid)
     on conflict (lab_id, item_id) do update set custodian_id = excluded.custodian_id, place_id = excluded.place_id,
       party = excluded.party, mass = excluded.mass, status = excluded.status, last_event_id = excluded.last_event_id`,
    [sql.actor.labId, itemId, custodianId, placeId, party, massG, status, eventId],
  )
}
