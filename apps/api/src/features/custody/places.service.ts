import type { CreatePlace, Place } from '@curebook/contract/custody'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import { isUniqueViolation } from '#platform/database-errors'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField } from '#platform/problem'
import { findPlace, findPlaces, insertPlace } from './places.repository.ts'

export type PlacesService = ReturnType<typeof createPlacesService>

/** Rooms, stores, ovens and baths in which items stand. */
export function createPlacesService({ laboratory }: { laboratory: Laboratory }) {
  return {
    /** A place inside another feature's transaction; one of another laboratory is simply not there. */
    readIn: (tx: LaboratoryTransaction, id: string): Promise<Place | null> => findPlace(tx, id),

    list: (actor: Actor) => laboratory.inLaboratory(actor, async (tx) => ({ items: await findPlaces(tx), next: null })),

    async create(actor: Actor, input: CreatePlace) {
      if (input.kind === 'outside' && input.accessControlled)
        throw invalidField(
          'accessControlled',
          'A place outside the laboratory is not under its access control: who has an item there is a person or a party.',
        )
      try {
        return await createOnce(laboratory, actor, {
          subjectKind: 'place',
          id: input.id,
          input,
          find: (tx) => findPlace(tx, input.id),
          create: async (tx) => {
            await insertPlace(tx, input)
            tx.record({
              action: 'place:create',
              subjectKind: 'place',
              subjectId: input.id,
              topics: ['places'],
              content: { ...input },
            })
            return (await findPlace(tx, input.id))!
          },
        })
      } catch (error) {
        if (!isUniqueViolation(error)) throw error
        const message = `There is a place called ${input.name} already: choose it, or give another name.`
        throw new AppError('conflict', message, { errors: [{ path: 'name', message }], cause: error })
      }
    },
  }
}
