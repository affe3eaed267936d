import type { Actor } from '#platform/actor'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { toSpecification } from './specifications.mapper.ts'
import { findSpecification, findSpecifications } from './specifications.repository.ts'

export type SpecificationsService = ReturnType<typeof createSpecificationsService>

/** What results must meet: built-in guideline values, adopted as a copy with the contract's changes. */
export function createSpecificationsService({ laboratory }: { laboratory: Laboratory }) {
  /** A specification inside another feature's transaction; null where there is none. */
  const readIn = async (tx: LaboratoryTransaction, id: string) => {
    const row = await findSpecification(tx, id)
    return row && toSpecification(row)
  }

  return {
    readIn,
    list: (actor: Actor) =>
      laboratory.inLaboratory(actor, async (tx) => ({
        items: (await findSpecifications(tx)).map(toSpecification),
        next: null,
      })),
  }
}
