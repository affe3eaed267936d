import type { CreateMaterial, MaterialKind } from '@curebook/contract/materials'
import type { Person } from '@curebook/trade/custody/custody'
import type { PlacesService } from '#features/custody/places.service'
import type { Actor } from '#platform/actor'
import type { Canonical } from '#platform/canonical-json'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { invalidField } from '#platform/problem'
import { newId } from '#platform/uuid'
import { toMaterial } from './materials.mapper.ts'
import { findMaterials, findMaterialsOf, insertMaterial, insertReceipt, nextItemCodes } from './materials.repository.ts'
import { receivedAmounts } from './received-amounts.ts'
import { readReceived } from './received.ts'

export type MaterialsService = ReturnType<typeof createMaterialsService>

/** Samples as received: the heads of every specimen's family tree, in somebody's care from the first day. */
export function createMaterialsService({ laboratory, places }: { laboratory: Laboratory; places: PlacesService }) {
  /** Samples by id, inside another feature's transaction; those of other laboratories are simply not there. */
  const readIn = async (tx: LaboratoryTransaction, ids: readonly string[]) =>
    (await findMaterialsOf(tx, ids)).map(toMaterial)

  return {
    readIn,
    /** Codes for that many new items, last in another feature's transaction. */
    nextCodesIn: nextItemCodes,
    /** What came of each sample by mass and by volume, inside another feature's transaction. */
    receivedIn: receivedAmounts,
    /** Reads what was found on arrival, where it begins or is put right; refuses beside the field. */
    readReceived,
    /** Stores what was found and told with a custody event, inside another feature's transaction. */
    insertReceiptIn: insertReceipt,

    list: (actor: Actor, { kind }: { kind?: MaterialKind } = {}) =>
      laboratory.inLaboratory(actor, async (tx) => ({
        items: (await findMaterials(tx, kind)).map(toMaterial),
        next: null,
      })),

    create: (actor: Actor, input: CreateMaterial) =>
      createOnce(laboratory, actor, {
        subjectKind: 'material',
        id: input.id,
        input,
        find: async (tx) => (await readIn(tx, [input.id])).at(0) ?? null,
        create: async (tx) => {
          const custodyEventId = newId()
          const moment = await momentOfReceipt(tx, input.receivedOn)
          const found = readReceived(input, personOf(actor), await placeOf(tx, places, input))
          const { code, rows } = await insertMaterial(tx, input, { custodyEventId, ...moment, found })
          tx.record({
            action: 'material:create',
            subjectKind: 'material',
            subjectId: input.id,
            topics: ['materials'],
            content: {
              ...(JSON.parse(JSON.stringify(input)) as Record<string, Canonical>),
              code,
              custody: { id: custodyEventId, kind: 'received', eventAt: moment.eventAt.toISOString() },
            },
            rows,
          })
          return (await readIn(tx, [input.id]))[0]!
        },
      }),
  }
}

function personOf({ membershipId, name }: Actor): Person {
  return { kind: 'person', id: membershipId, name }
}

async function placeOf(tx: LaboratoryTransaction, places: PlacesService, { receipt }: CreateMaterial) {
  if (receipt?.placeId === undefined) return null
  const place = await places.readIn(tx, receipt.placeId)
  if (!place)
    throw invalidField('receipt.placeId', 'There is no such place in this laboratory: choose one of the list.')
  return place
}

/** Received today means now; an earlier day comes from a paper that names no time of day. */
async function momentOfReceipt(tx: LaboratoryTransaction, receivedOn: string) {
  const today = await laboratoryToday(tx)
  if (receivedOn > today)
    throw invalidField('receivedOn', `A sample is entered when it is here: give ${today} or an earlier day.`)
  if (receivedOn === today) return { eventAt: tx.at, eventFrom: 'now', note: null } as const
  return {
    eventAt: new Date(`${receivedOn}T12:00:00.000Z`),
    eventFrom: 'paper',
    note: 'Time of day not recorded; noon stands for it.',
  } as const
}
