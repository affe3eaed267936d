import type { PlanSeries, SpecimenRow } from '@curebook/contract/designs'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { urgencyOf, urgencyOrder } from '@curebook/trade/procedure/urgency'
import { dueOf } from '@curebook/trade/procedure/windows'
import type { PinnedEdition } from '#features/methods/methods.service'
import type { Actor } from '#platform/actor'
import { runOnce } from '#platform/idempotency'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { AppError } from '#platform/problem'
import { newId } from '#platform/uuid'
import { type DesignContext, lockedRevision, revisionIn } from './design-context.ts'
import { assertOpen } from './design-rules.ts'
import type { RevisionRow } from './designs.repository.ts'
import { writeMixComponents } from './mix-components.ts'
import { type PlannedRows, recordPlan } from './plan-record.ts'
import { findReplicates, insertMixes, type PlanRows, saveDesignMethod } from './plan.repository.ts'
import { addToSeries, type SeriesAddition } from './series-plan.ts'

/** A method with the edition that tests made now are pinned to. */
export type Pinned = { method: MethodDeclaration; edition: PinnedEdition }

/**
 * Plans a binder series on the newest revision, or extends it: mixes with their batch sheets, a batch and a specimen with
 * its short code for each replicate, and their tests, pinned to the editions in force.
 */
export function planDesign(
  context: DesignContext,
  actor: Actor,
  designId: string,
  input: PlanSeries,
  key?: string,
): Promise<{ items: SpecimenRow[]; next: null }> {
  return runOnce(context.laboratory, actor, {
    key,
    route: 'design:plan',
    input: { design: designId, ...input },
    work: async (tx) => {
      const revision = await lockedRevision(tx, designId)
      assertOpen(revision)
      const addition = await additionTo(context, tx, revision, input)
      const pins = await pinsOf(context, tx, input)
      const mixIds = await addMixes(tx, revision, addition)
      for (const [methodKey, { edition }] of pins) {
        if (methodKey === 'batch') continue
        const replicates = Math.max(
          ...addition.specimens
            .filter((one) => one.methodKey === methodKey && one.purpose === 'series')
            .map(({ replicate }) => replicate),
        )
        const standing = revision.designMethods.find((one) => one.methodKey === methodKey)
        await saveDesignMethod(
          tx,
          { id: newId(), designRevisionId: revision.id, methodKey, editionId: edition.id, replicates },
          standing,
        )
      }
      const codes = await context.materials.nextCodesIn(tx, addition.specimens.length)
      const planned = addition.specimens.flatMap((specimen, index) =>
        rowsOf(tx, revision, { specimen, mixId: mixIds[specimen.content]!, code: codes[index]!, pins }),
      )
      const answer = await recordPlan(context, tx, revision, planned, { contents: input.contents })
      await writeMixComponents(context, tx, await revisionIn(tx, designId))
      return answer
    },
  })
}

async function additionTo(
  { methods }: DesignContext,
  tx: LaboratoryTransaction,
  revision: RevisionRow,
  input: PlanSeries,
): Promise<SeriesAddition> {
  const outcome = addToSeries(input, {
    kind: revision.design.kind === 'verification' ? 'verification' : 'full',
    methods: methods.declarations,
    mixes: revision.mixes.map(({ id, ordinal, ...mix }) => ({
      id,
      ordinal,
      emulsionPercent: mix.emulsionPercentText,
      waterPercent: mix.waterPercentText,
      fillerPercent: mix.fillerPercentText,
      additivePercent: mix.additivePercentText,
    })),
    replicates: await findReplicates(tx, revision.designId),
  })
  if (outcome.ok) return outcome.addition
  throw new AppError('invalid-input', outcome.errors[0]!.message, { errors: outcome.errors })
}

async function pinsOf(
  { methods }: DesignContext,
  tx: LaboratoryTransaction,
  input: PlanSeries,
): Promise<ReadonlyMap<string, Pinned>> {
  const pins = new Map<string, Pinned>()
  for (const key of ['batch', ...input.methods.map(({ methodKey }) => methodKey)]) {
    const method = methodByKey(methods.declarations, key)
    if (method) pins.set(key, { method, edition: await methods.editionInForceIn(tx, key) })
  }
  return pins
}

/** Adds the contents that are new; the ids of all, in the order of the addition. */
async function addMixes(
  tx: LaboratoryTransaction,
  revision: RevisionRow,
  { contents }: SeriesAddition,
): Promise<string[]> {
  const ids = contents.map(({ standing }) => standing?.id ?? newId())
  let ordinal = Math.max(0, ...revision.mixes.map((mix) => mix.ordinal))
  const rows = contents.flatMap(
    ({ standing, emulsionPercent, waterPercent, fillerPercent, additivePercent }, index): PlanRows['mixes'] => {
      if (standing) return []
      ordinal += 1
      return [
        {
          id: ids[index]!,
          designRevisionId: revision.id,
          ordinal,
          emulsionPercentText: emulsionPercent,
          emulsionPercent,
          waterPercentText: waterPercent,
          waterPercent,
          fillerPercentText: fillerPercent,
          fillerPercent,
          additivePercentText: additivePercent,
          additivePercent,
        },
      ]
    },
  )
  await insertMixes(tx, rows)
  return ids
}

/** Rows of one specimen and the batch it is cast from. The batch's code is the specimen's with `.B` behind. */
function rowsOf(
  { actor, at }: LaboratoryTransaction,
  revision: RevisionRow,
  {
    specimen,
    mixId,
    code,
    pins,
  }: { specimen: SeriesAddition['specimens'][number]; mixId: string; code: string; pins: ReadonlyMap<string, Pinned> },
): PlannedRows {
  const { label, replicate, purpose, form, methodKey } = specimen
  const [item, batchItem, test, batchTest] = [newId(), newId(), newId(), newId()]
  const written = { byId: actor.membershipId, at }
  const materials = [
    revision.aggregateItemId,
    revision.emulsionItemId,
    revision.fillerItemId,
    revision.additiveItemId,
    revision.waterItemId,
  ]
  const testRow = (id: string, itemId: string, { method, edition }: Pinned) => ({
    id,
    itemId,
    methodKey: method.key,
    editionId: edition.id,
    computation: method.computation,
    mixId,
    designRevisionId: revision.id,
    projectId: revision.design.projectId,
    replicate,
    label,
    purpose,
    ...written,
  })
  const [ofBatch, ofSpecimen] = [pins.get('batch')!, pins.get(methodKey)!]
  // A spare is cast, cured and weighed with the others; it counts once it stands in another's place.
  const batchStanding = standingOf(batchTest, ofBatch, revision, at)
  const ownStanding = standingOf(test, ofSpecimen, revision, at)
  return {
    items: [
      { id: batchItem, kind: 'batch', code: `${code}.B`, mixId, madeAt: at, ...written },
      { id: item, kind: 'specimen', code, mixId, form, madeAt: at, ...written },
    ],
    parents: [
      ...[...new Set(materials.filter((id) => id !== null))].map((parentId) => ({ childId: batchItem, parentId })),
      { childId: item, parentId: batchItem },
    ],
    tests: [testRow(batchTest, batchItem, ofBatch), testRow(test, item, ofSpecimen)],
    standings: [batchStanding.now, ownStanding.now],
    dues: [...batchStanding.dues, ...ownStanding.dues],
    summary: { code, label, item, test, batch: batchTest, method: methodKey, purpose },
  }
}

/** Where a test stands before anything was done: its first act is due. */
export function standingOf(testId: string, { method, edition }: Pinned, revision: RevisionRow, at: Date) {
  const now = {
    testId,
    state: 'waiting',
    stepKey: method.steps[0]?.key ?? null,
    stepsDone: 0,
    stepsTotal: method.steps.length,
    counts: true,
  }
  const due = dueOf(method, edition.parameters, [], [])
  if (!due) return { now, dues: [] }
  const urgency = urgencyOrder.indexOf(urgencyOf(due.opensAt, due.closesAt, at.toISOString()))
  const { step: stepKey, act, window: windowKey, opensAt, closesAt } = due
  return {
    now,
    dues: [{ testId, stepKey, act, windowKey, opensAt, closesAt, projectId: revision.design.projectId, urgency }],
  }
}
