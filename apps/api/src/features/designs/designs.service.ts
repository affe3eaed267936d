import type {
  BatchSheet,
  CreateDesign,
  Design,
  EnterResult,
  PlanMaterialTest,
  PlanSeries,
  SpecimenRow,
  UpdateDesign,
} from '@curebook/contract/designs'
import type { DemandCheck } from '@curebook/contract/demand'
import type { EnterGradation } from '@curebook/contract/gradations'
import type { EnterPanelResult } from '@curebook/contract/panel-results'
import type { NewRevision } from '@curebook/contract/review'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import { editOf, repeatedEdit } from '#platform/edit'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { pageFrom } from '#platform/page'
import { AppError } from '#platform/problem'
import {
  type DesignContext,
  designOf,
  entryOf,
  type InputListener,
  lockedRevision,
  revisionIn,
} from './design-context.ts'
import { demandCheck } from './demand-check.ts'
import { planDesign } from './design-plan.ts'
import { planMaterialTest } from './material-tests.ts'
import { startRevision } from './design-revision.ts'
import { choiceOf, faultsOfSpecification, faultsOfSpecificationChoice } from './specification-choice.ts'
import { assertOpen, faultOfScalped, faultsOfMaterials, type MaterialChoice, materialFields } from './design-rules.ts'
import { toMix, toSummary } from './designs.mapper.ts'
import {
  countTests,
  findDesigns,
  findProjectKind,
  findRevision,
  findRevisionNumbers,
  hasTests,
  insertDesign,
  renameDesign,
  updateRevision,
} from './designs.repository.ts'
import { enterResult } from './entered-results.ts'
import { enterGradation, gradationOf } from './gradations.ts'
import { enterPanelResult, panelResultsOf } from './panel-results.ts'
import { batchSheetsOf } from './mix-components.ts'
import { type MixShares, setShares, sharesStandIn } from './series-shares.ts'
import { specimensOf } from './specimen-rows.ts'

export type DesignsService = ReturnType<typeof createDesignsService>

/** Mix designs with their revisions, binder series and entered values. Tests and results come with the bench. */
export function createDesignsService(deps: Omit<DesignContext, 'inputListeners'>) {
  const context: DesignContext = { ...deps, inputListeners: [] }
  const { laboratory } = context

  return {
    /** Whoever computes from entered values is told, in the same transaction, when one changed. */
    onDesignInputChanged: (listener: InputListener) => void context.inputListeners.push(listener),

    /** A revision with all that stands beside it, inside another feature's transaction; the newest without a number. */
    readIn: async (tx: LaboratoryTransaction, designId: string, number?: number) =>
      designOf(context, tx, await revisionIn(tx, designId, number)),
    specimensIn: (tx: LaboratoryTransaction, designId: string, upTo?: number) =>
      specimensOf(context, tx, designId, upTo),
    batchSheetsIn: async (tx: LaboratoryTransaction, designId: string, number?: number) =>
      batchSheetsOf(context, tx, await revisionIn(tx, designId, number)),
    /** Ids of the revisions whose tests count for a revision: its own and all before it, oldest first. */
    revisionsUpToIn: async (tx: LaboratoryTransaction, designId: string, number: number) =>
      (await findRevisionNumbers(tx, designId)).filter((revision) => revision.number <= number).map(({ id }) => id),

    /** Entered results of the panel as they stand for a revision. */
    panelResultsIn: panelResultsOf,
    /** The gradation that stands for a revision. */
    gradationIn: gradationOf,

    /** The newest revision held until the end of the transaction, if it may change. */
    lockOpenIn: async (tx: LaboratoryTransaction, designId: string) => {
      const row = await lockedRevision(tx, designId)
      assertOpen(row)
      return { revisionId: row.id, number: row.number, mixes: row.mixes.map(toMix), entry: entryOf(row) }
    },
    sharesStandIn,
    setSharesIn: (tx: LaboratoryTransaction, designId: string, shares: readonly MixShares[]) =>
      setShares(context, tx, designId, shares),

    list: (actor: Actor, query: { cursor?: string; limit: number }) =>
      laboratory.inLaboratory(actor, async (tx) => {
        const { rows, next } = pageFrom(await findDesigns(tx, query), query.limit, ({ createdAt, id }) => ({
          at: createdAt,
          id,
        }))
        const counts = await countTests(
          tx,
          rows.map(({ id }) => id),
        )
        return { items: rows.map((row) => toSummary(row, counts.get(row.id))), next }
      }),

    read: (actor: Actor, designId: string, number?: number): Promise<Design> =>
      laboratory.inLaboratory(actor, async (tx) => designOf(context, tx, await revisionIn(tx, designId, number))),

    create: (actor: Actor, input: CreateDesign) =>
      createOnce(laboratory, actor, {
        subjectKind: 'design',
        id: input.id,
        input,
        find: async (tx): Promise<Design | null> => {
          const row = await findRevision(tx, input.id)
          return row && designOf(context, tx, row)
        },
        create: async (tx) => {
          const project = await findProjectKind(tx, input.projectId)
          const own = await context.projectSpecifications.holdIn(tx, input.projectId)
          const choice = choiceOf(input, own)
          await refuseFaults(tx, { ...input, ...choice }, input.projectId, [
            ...(project
              ? []
              : [
                  {
                    path: 'projectId',
                    message: 'There is no such project in this laboratory: choose one of the list, or enter it first.',
                  },
                ]),
            ...faultsOfSpecificationChoice(choice, own),
          ])
          const kind = project?.kind === 'verification' ? 'verification' : 'full'
          await insertDesign(
            tx,
            { id: input.id, projectId: input.projectId, name: input.name, kind },
            {
              ...columnsOf({ ...input, ...choice }),
              id: input.revisionId,
              number: 1,
              basis: 'dry-aggregate',
              fractionUsed: input.fractionUsed,
              scalpedPercent: input.scalpedPercent,
              state: 'draft',
            },
          )
          const row = await revisionIn(tx, input.id)
          tx.record({
            action: 'design:create',
            subjectKind: 'design',
            subjectId: input.id,
            ...entryOf(row),
            content: { ...input },
          })
          return designOf(context, tx, row)
        },
      }),

    /** @param version the one that the edit starts from (If-Match) */
    update: (actor: Actor, designId: string, input: UpdateDesign, version: number): Promise<Design> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const row = await lockedRevision(tx, designId)
        assertOpen(row)
        const subject = { subjectKind: 'design-revision', subjectId: row.id, action: 'design:update' }
        const edit = editOf(subject, version, input)
        const before = await designOf(context, tx, row)
        if (row.version !== version) return repeatedEdit(tx, edit, before)
        const { projectId } = row.design
        const own = await context.projectSpecifications.holdIn(tx, projectId)
        const choice = choiceOf(input, own, before)
        // What is pinned stays pinned, also where it was withdrawn since.
        const { specificationId: chosen, ...rest } = input
        const isKept = chosen === undefined || chosen === row.specificationId
        await refuseFaults(tx, isKept ? rest : input, projectId, isKept ? [] : faultsOfSpecificationChoice(choice, own))
        if (row.mixes.length > 0 || (await hasTests(tx, designId))) refuseOtherMaterials(row, input)
        const { name, fractionUsed, scalpedPercent } = input
        await updateRevision(tx, row.id, { ...columnsOf({ ...input, ...choice }), fractionUsed, scalpedPercent })
        if (name !== undefined && name !== before.name) await renameDesign(tx, designId, name)
        const after = await designOf(context, tx, await revisionIn(tx, designId))
        tx.record({
          ...edit,
          ...entryOf(row),
          content: { before: wordsOf(before), after: wordsOf(after) },
        })
        return after
      }),

    enterGradation: (actor: Actor, designId: string, input: EnterGradation) =>
      enterGradation(context, actor, designId, input),
    enterPanelResult: (actor: Actor, designId: string, input: EnterPanelResult) =>
      enterPanelResult(context, actor, designId, input),

    enterResult: (actor: Actor, designId: string, input: EnterResult) => enterResult(context, actor, designId, input),

    /** @param key Idempotency-Key: the same request again gets the same answer */
    planMaterialTest: (actor: Actor, designId: string, input: PlanMaterialTest, key?: string) =>
      planMaterialTest(context, actor, designId, input, key),
    plan: (actor: Actor, designId: string, input: PlanSeries, key?: string) =>
      planDesign(context, actor, designId, input, key),

    specimens: (actor: Actor, designId: string, number?: number): Promise<{ items: SpecimenRow[]; next: null }> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const revision = await revisionIn(tx, designId, number)
        return { items: await specimensOf(context, tx, designId, revision.number), next: null }
      }),

    batchSheets: (actor: Actor, designId: string, number?: number): Promise<{ items: BatchSheet[]; next: null }> =>
      laboratory.inLaboratory(actor, async (tx) => ({
        items: await batchSheetsOf(context, tx, await revisionIn(tx, designId, number)),
        next: null,
      })),

    /** Whether what arrived suffices, for the series as planned or for one that is being planned. Writes nothing. */
    demandCheck: (actor: Actor, designId: string, planned: PlanSeries | null): Promise<DemandCheck> =>
      laboratory.inLaboratory(actor, (tx) => demandCheck(context, tx, designId, planned)),

    startRevision: (actor: Actor, designId: string, input: NewRevision) =>
      startRevision(context, actor, designId, input),
  }

  async function refuseFaults(
    tx: LaboratoryTransaction,
    input: MaterialChoice & { specificationId?: string; scalpedPercent?: string },
    projectId: string,
    known: { path: string; message: string }[],
  ) {
    const ids = Object.keys(materialFields).flatMap((field) => input[field as keyof MaterialChoice] ?? [])
    const errors = [
      ...known,
      ...(input.specificationId === undefined
        ? []
        : faultsOfSpecification(await context.specifications.readToChooseIn(tx, input.specificationId), projectId)),
      ...faultsOfMaterials(input, await context.materials.readIn(tx, ids)),
      ...faultOfScalped(input.scalpedPercent),
    ]
    if (errors.length > 0) throw new AppError('invalid-input', errors[0]!.message, { errors })
  }
}

/** Lineage stands from the first planned batch or test on: it names the samples it was made of. */
function refuseOtherMaterials(row: ReturnType<typeof columnsOf>, input: UpdateDesign): void {
  const columns = columnsOf(input)
  const errors = (Object.keys(materialFields) as (keyof typeof materialFields)[]).flatMap((path) => {
    const column = columnOf[path]
    return columns[column] === undefined || columns[column] === row[column]
      ? []
      : [{ path, message: 'Specimens are planned from this sample. Start another design for another material.' }]
  })
  if (errors.length > 0) throw new AppError('refused-by-rule', errors[0]!.message, { errors })
}

const columnOf = {
  aggregateId: 'aggregateItemId',
  emulsionId: 'emulsionItemId',
  fillerId: 'fillerItemId',
  additiveId: 'additiveItemId',
  waterId: 'waterItemId',
} as const

function columnsOf(input: MaterialChoice & { specificationId?: string | null; specificationReason?: string | null }) {
  return {
    specificationId: input.specificationId,
    specificationReason: input.specificationReason,
    aggregateItemId: input.aggregateId,
    emulsionItemId: input.emulsionId,
    fillerItemId: input.fillerId,
    additiveItemId: input.additiveId,
    waterItemId: input.waterId,
  }
}

function wordsOf({ name, version, specification, specificationReason, materials, ...fraction }: Design) {
  const { aggregate, emulsion, filler, additive, water } = materials
  return {
    name,
    version: String(version),
    specification: specification.id,
    specificationReason,
    aggregate: aggregate.id,
    emulsion: emulsion.id,
    filler: filler?.id ?? null,
    additive: additive?.id ?? null,
    water: water?.id ?? null,
    fractionUsed: fraction.fractionUsed,
    scalpedPercent: fraction.scalpedPercent,
  }
}
