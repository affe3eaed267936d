import type { PlanMaterialTest, SpecimenRow } from '@curebook/contract/designs'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { Actor } from '#platform/actor'
import { runOnce } from '#platform/idempotency'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { invalidField } from '#platform/problem'
import { newId } from '#platform/uuid'
import { type DesignContext, lockedRevision } from './design-context.ts'
import { type Pinned, standingOf } from './design-plan.ts'
import { assertOpen, faultOfUnchosen } from './design-rules.ts'
import type { RevisionRow } from './designs.repository.ts'
import { type PlannedRows, recordPlan } from './plan-record.ts'
import { findMaterialReplicates, saveDesignMethod } from './plan.repository.ts'

/**
 * Plans tests that are made of the design's materials, or of a sample, and depend on no content: one specimen each with its
 * short code, pinned to the edition in force. Replicates go on from those that stand.
 */
export function planMaterialTest(
  context: DesignContext,
  actor: Actor,
  designId: string,
  input: PlanMaterialTest,
  key?: string,
): Promise<{ items: SpecimenRow[]; next: null }> {
  return runOnce(context.laboratory, actor, {
    key,
    route: 'design:plan-material-test',
    input: { design: designId, ...input },
    work: async (tx) => {
      const revision = await lockedRevision(tx, designId)
      assertOpen(revision)
      const method = methodByKey(context.methods.declarations, input.methodKey)
      if (method?.madeFrom !== 'materials' || method.place !== 'panel')
        throw invalidField('methodKey', `“${input.methodKey}” is no test of the materials: choose one of the list.`)
      const unchosen = method.ofSample ? undefined : faultOfUnchosen(revision)
      if (unchosen !== undefined) throw invalidField('methodKey', unchosen)
      const pinned = { method, edition: await context.methods.editionInForceIn(tx, method.key) }
      const standing = revision.designMethods.find((one) => one.methodKey === method.key)
      const row = { id: newId(), designRevisionId: revision.id, methodKey: method.key, editionId: pinned.edition.id }
      const highest = await findMaterialReplicates(tx, designId, method.key)
      await saveDesignMethod(tx, { ...row, replicates: highest + input.replicates }, standing)
      const codes = await context.materials.nextCodesIn(tx, input.replicates)
      const planned = codes.map((code, index) => rowsOf(tx, revision, { code, replicate: highest + index + 1, pinned }))
      return recordPlan(context, tx, revision, planned, { method: method.key })
    },
  })
}

/** A sample of the road is made of none of the design's materials as they lie here. */
function parentsOf(revision: RevisionRow, { method }: Pinned): string[] {
  if (method.ofSample) return []
  const { aggregateItemId, emulsionItemId, fillerItemId, additiveItemId, waterItemId } = revision
  const ids = [aggregateItemId, emulsionItemId, fillerItemId, additiveItemId, waterItemId]
  return [...new Set(ids.filter((id) => id !== null))]
}

function rowsOf(
  { actor, at }: LaboratoryTransaction,
  revision: RevisionRow,
  { code, replicate, pinned }: { code: string; replicate: number; pinned: Pinned },
): PlannedRows {
  const { method, edition } = pinned
  const [item, test, label] = [newId(), newId(), `M-${replicate}`]
  const written = { byId: actor.membershipId, at }
  const { now, dues } = standingOf(test, pinned, revision, at)
  return {
    items: [{ id: item, kind: 'specimen', code, form: method.form, madeAt: at, ...written }],
    parents: parentsOf(revision, pinned).map((parentId) => ({ childId: item, parentId })),
    tests: [
      {
        id: test,
        itemId: item,
        methodKey: method.key,
        editionId: edition.id,
        computation: method.computation,
        designRevisionId: revision.id,
        projectId: revision.design.projectId,
        replicate,
        label,
        purpose: 'series',
        ...written,
      },
    ],
    standings: [now],
    dues,
    summary: { code, label, item, test, method: method.key },
  }
}
