import type { Custodian, CustodyState } from '@curebook/trade/custody/custody'

/** The last event of an item's chain, with the names of whom it speaks. */
export type LastEvent = {
  readonly kind: string
  readonly massG: string | null
  readonly fromMemberId: string | null
  readonly fromMemberName: string | null
  readonly fromPlaceId: string | null
  readonly fromPlaceName: string | null
  readonly toMemberId: string | null
  readonly toMemberName: string | null
  readonly toPlaceId: string | null
  readonly toPlaceName: string | null
  readonly toParty: string | null
}

/** Columns of `LastEvent` of an event `e`, and the names that belong to them. */
export const lastEventColumns = `e.kind, trim_scale(e.mass)::text as "massG", e.from_member_id as "fromMemberId", fm.name as "fromMemberName",
  e.from_place_id as "fromPlaceId", fp.name as "fromPlaceName", e.to_member_id as "toMemberId", tm.name as "toMemberName",
  e.to_place_id as "toPlaceId", tp.name as "toPlaceName", e.to_party as "toParty"`
export const lastEventNames = `left join membership fm on fm.lab_id = e.lab_id and fm.id = e.from_member_id
  left join membership tm on tm.lab_id = e.lab_id and tm.id = e.to_member_id
  left join place fp on fp.lab_id = e.lab_id and fp.id = e.from_place_id
  left join place tp on tp.lab_id = e.lab_id and tp.id = e.to_place_id`

/** Where an item stands after an event: each says by itself who has it then, so that the last one is enough. */
export function stateAfter(event: LastEvent): CustodyState {
  const { kind, massG, toParty } = event
  if (kind === 'disposed') return { status: 'disposed' }
  if (kind === 'offered')
    return {
      status: 'offered',
      custodian: inside(event.fromMemberId, event.fromMemberName, event.fromPlaceId, event.fromPlaceName),
      to: { kind: 'party', name: toParty ?? '' },
      massG,
    }
  if (toParty !== null) return { status: 'with', custodian: { kind: 'party', name: toParty }, massG }
  const { toMemberId, toMemberName, toPlaceId, toPlaceName } = event
  return { status: 'with', custodian: inside(toMemberId, toMemberName, toPlaceId, toPlaceName), massG }
}

function inside(
  memberId: string | null,
  memberName: string | null,
  placeId: string | null,
  placeName: string | null,
): Exclude<Custodian, { kind: 'party' }> {
  if (memberId !== null) return { kind: 'person', id: memberId, name: memberName ?? '' }
  return { kind: 'place', id: placeId ?? '', name: placeName ?? '' }
}
