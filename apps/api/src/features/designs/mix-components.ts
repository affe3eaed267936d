import type { BatchSheet } from '@curebook/contract/designs'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { newId } from '#platform/uuid'
import { sheetForms, sheetOf, type SheetForm } from './batch-sheets.ts'
import type { DesignContext } from './design-context.ts'
import type { RevisionRow } from './designs.repository.ts'

/** The batch sheets of a revision: one for each content and method of its series. */
export async function batchSheetsOf(
  { methods }: Pick<DesignContext, 'methods'>,
  tx: LaboratoryTransaction,
  revision: RevisionRow,
): Promise<BatchSheet[]> {
  if (revision.mixes.length === 0) return []
  const [pinned, current] = [await pinnedBatchEditions(tx, revision), await methods.editionInForceIn(tx, 'batch')]
  return revision.designMethods.flatMap(({ methodKey }) => {
    const form = methodByKey(methods.declarations, methodKey)?.form
    if (form === undefined || !sheetForms.includes(form)) return []
    return revision.mixes.map((mix) =>
      sheetOf(revision, {
        mix,
        methodKey,
        form: form as SheetForm,
        parameters: pinned.get(mix.id) ?? current.parameters,
      }),
    )
  })
}

/** Keeps the targets of a revision's sheets with its mixes, anew after every change of content or moisture. */
export async function writeMixComponents(
  context: DesignContext,
  tx: LaboratoryTransaction,
  revision: RevisionRow,
): Promise<void> {
  const { prisma, actor } = tx
  const sheets = await batchSheetsOf(context, tx, revision)
  const percentOf = {
    filler: 'fillerPercent',
    water: 'waterPercent',
    additive: 'additivePercent',
    emulsion: 'emulsionPercent',
  } as const
  const sourceOf = {
    aggregate: revision.aggregateItemId,
    filler: revision.fillerItemId,
    water: revision.waterItemId,
    additive: revision.additiveItemId,
    emulsion: revision.emulsionItemId,
  }
  await prisma.mixComponent.deleteMany({
    where: { labId: actor.labId, mixId: { in: revision.mixes.map(({ id }) => id) } },
  })
  await prisma.mixComponent.createMany({
    data: sheets.flatMap(({ mixId, methodKey, rows }) => {
      const mix = revision.mixes.find(({ id }) => id === mixId)!
      return rows.map(({ component, targetG }) => ({
        labId: actor.labId,
        id: newId(),
        mixId,
        methodKey,
        kind: component,
        sourceId: sourceOf[component],
        targetPercent: component === 'aggregate' ? '100' : mix[percentOf[component]],
        targetG,
      }))
    }),
  })
}

/** The batch edition that the newest batch test of each mix is pinned to. */
async function pinnedBatchEditions({ prisma, actor }: LaboratoryTransaction, { mixes }: RevisionRow) {
  const tests = await prisma.testEvent.findMany({
    where: { labId: actor.labId, methodKey: 'batch', mixId: { in: mixes.map(({ id }) => id) } },
    select: { mixId: true, edition: { select: { parameters: true } } },
    distinct: ['mixId'],
    orderBy: [{ mixId: 'asc' }, { at: 'desc' }],
  })
  return new Map(tests.map(({ mixId, edition }) => [mixId!, JSON.parse(edition.parameters)]))
}
