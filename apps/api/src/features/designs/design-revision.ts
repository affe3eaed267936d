import type { Design } from '@curebook/contract/designs'
import type { NewRevision } from '@curebook/contract/review'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import { AppError } from '#platform/problem'
import { newId } from '#platform/uuid'
import { type DesignContext, designOf, entryOf, lockedRevision, revisionIn } from './design-context.ts'
import { findRevisionNumbers, hasTests, insertRevision, type RevisionRow } from './designs.repository.ts'
import { writeMixComponents } from './mix-components.ts'
import type { LaboratoryTransaction } from '#platform/laboratory'

/**
 * Starts a new revision from an approved one: settings, entered values and mixes are copied; tests stay with the revision
 * in which they were made and count for the new one too.
 */
export function startRevision(context: DesignContext, actor: Actor, designId: string, input: NewRevision) {
  return createOnce(context.laboratory, actor, {
    subjectKind: 'design-revision',
    id: input.id,
    input: { design: designId, ...input },
    find: async (tx): Promise<Design | null> => {
      const stored = (await findRevisionNumbers(tx, designId)).find(({ id }) => id === input.id)
      return stored ? designOf(context, tx, await revisionIn(tx, designId, stored.number)) : null
    },
    create: async (tx) => {
      const approved = await lockedRevision(tx, designId)
      if (approved.state !== 'approved')
        throw new AppError(
          'wrong-state',
          `Revision ${approved.number} is not approved yet: change it instead of starting another.`,
        )
      await copyRevision(tx, approved, input)
      const revision = await revisionIn(tx, designId)
      await writeMixComponents(context, tx, revision)
      tx.record({
        action: 'revision:create',
        subjectKind: 'design-revision',
        subjectId: input.id,
        ...entryOf(revision),
        content: { design: designId, number: String(revision.number), from: approved.id, reason: input.reason },
      })
      return designOf(context, tx, revision)
    },
  })
}

async function copyRevision(tx: LaboratoryTransaction, from: RevisionRow, { id, reason }: NewRevision): Promise<void> {
  const { labId } = tx.actor
  const {
    designId,
    specificationId,
    specificationReason,
    basis,
    residueResultId,
    moistureResultId,
    fractionUsed,
    scalpedPercent,
  } = from
  const { aggregateItemId, emulsionItemId, fillerItemId, waterItemId, additiveItemId } = from
  await insertRevision(tx, {
    id,
    designId,
    number: from.number + 1,
    specificationId,
    specificationReason,
    basis,
    residueResultId,
    moistureResultId,
    aggregateItemId,
    emulsionItemId,
    fillerItemId,
    waterItemId,
    additiveItemId,
    fractionUsed,
    scalpedPercent,
    copiedFromId: from.id,
    note: reason,
    state: from.mixes.length > 0 || (await hasTests(tx, designId)) ? 'in-work' : 'draft',
  })
  const mine = { labId, designRevisionId: id, version: 1 }
  await tx.prisma.mix.createMany({ data: from.mixes.map((mix) => ({ ...mix, ...mine, id: newId() })) })
  await tx.prisma.designMethod.createMany({
    data: from.designMethods.map(({ edition: _, ...method }) => ({ ...method, ...mine, id: newId() })),
  })
}
