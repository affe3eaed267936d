import type { CreateClient } from '@curebook/contract/projects'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import { isUniqueViolation } from '#platform/database-errors'
import type { Laboratory } from '#platform/laboratory'
import { AppError } from '#platform/problem'
import { toClient } from './clients.mapper.ts'
import { findClient, findClients, insertClient } from './clients.repository.ts'

export type ClientsService = ReturnType<typeof createClientsService>

/** Who the laboratory works for. */
export function createClientsService({ laboratory }: { laboratory: Laboratory }) {
  return {
    list: (actor: Actor) =>
      laboratory.inLaboratory(actor, async (tx) => ({ items: (await findClients(tx)).map(toClient), next: null })),

    async create(actor: Actor, input: CreateClient) {
      try {
        return await createOnce(laboratory, actor, {
          subjectKind: 'client',
          id: input.id,
          input,
          find: async (tx) => {
            const stored = await findClient(tx, input.id)
            return stored && toClient(stored)
          },
          create: async (tx) => {
            await insertClient(tx, input)
            tx.record({
              action: 'client:create',
              subjectKind: 'client',
              subjectId: input.id,
              topics: ['clients'],
              content: { ...input },
            })
            return toClient(input)
          },
        })
      } catch (error) {
        if (!isUniqueViolation(error)) throw error
        const message = `A client named ${input.name} stands already: choose it, or write a name that tells them apart.`
        throw new AppError('conflict', message, { errors: [{ path: 'name', message }], cause: error })
      }
    },
  }
}
