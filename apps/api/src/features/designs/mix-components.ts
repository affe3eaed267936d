import type { BatchSheet } from '@curebook/contract/designs'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameters } from '@curebook/trade/procedure/declaration'
import { decimal } from '@curebook/trade/quantity/decimal'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { newId } from '#platform/uuid'
import { sheetOf } from './batch-sheets.ts'
import type { DesignContext } from './design-context.ts'
import type { RevisionRow } from './designs.repository.ts'
import { findSheetEditions } from './sheet-editions.repository.ts'

/**
 * The batch sheets of a revision: one for each content and method of its series, and for each test made at one content. Where
 * specimens were planned under editions that take other portions, each portion has its sheet, the first planned in front.
 */
export async function batchSheetsOf(
  { methods }: Pick<DesignContext, 'methods'>,
  tx: LaboratoryTransaction,
  revision: RevisionRow,
): Promise<BatchSheet[]> {
  if (revision.mixes.length === 0) return []
  const pinned = await findSheetEditions(tx, revision)
  const current = await methods.editionInForceIn(tx, 'batch')
  return revision.designMethods.flatMap(({ methodKey, edition }) => {
    const method = methodByKey(methods.declarations, methodKey)
    if (method?.madeFrom !== 'batch') return []
    return revision.mixes.flatMap((mix) => {
      const made = pinned.filter(
        (one) => one.methodKey === methodKey && decimal(one.content).eq(mix.emulsionPercentText),
      )
      // A test of the panel is made at few contents; a series is to be made at each.
      if (made.length === 0 && method.place === 'series')
        return [
          sheetOf(revision, {
            ...{ mix, method, testIds: [] },
            ...{ own: parametersOf(edition.parameters), parameters: current.parameters },
          }),
        ]
      const sheets = made.map(({ own, batch, testIds }) =>
        sheetOf(revision, { mix, method, testIds, own: parametersOf(own), parameters: parametersOf(batch) }),
      )
      return firstOf(sheets, ({ dryAggregateG, fractionUsed }) => `${dryAggregateG} ${fractionUsed}`)
    })
  })
}

const parametersOf = (json: string) => JSON.parse(json) as EditionParameters

/**
 * Keeps the targets of a revision's sheets with its mixes, anew after every change of content or moisture: of a method's
 * first sheet. The bench works out each batch by the editions that its own tests are pinned to (`bench/batch-targets.ts`).
 */
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
    data: firstOf(sheets, ({ mixId, methodKey }) => `${mixId} ${methodKey}`).flatMap(({ mixId, methodKey, rows }) => {
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

/** The first sheet of each kind, with the tests of all that are alike. */
function firstOf(sheets: readonly BatchSheet[], kindOf: (sheet: BatchSheet) => string): readonly BatchSheet[] {
  const kinds = new Map<string, BatchSheet>()
  for (const sheet of sheets) {
    const first = kinds.get(kindOf(sheet)) ?? { ...sheet, testIds: [] }
    kinds.set(kindOf(sheet), { ...first, testIds: [...first.testIds, ...sheet.testIds] })
  }
  return [...kinds.values()]
}
