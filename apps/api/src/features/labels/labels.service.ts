import type { Label, PrintLabels } from '@curebook/contract/labels'
import type { Actor } from '#platform/actor'
import { codeSquare } from '#platform/code-square'
import { runOnce } from '#platform/idempotency'
import type { Laboratory } from '#platform/laboratory'
import { AppError, notFound } from '#platform/problem'
import { rowsSqlOf, type RowsSql } from '#platform/sql-rows'
import { findLabelledItem, findPrints, type LabelledItem } from './labels.repository.ts'

export type LabelsService = ReturnType<typeof createLabelsService>

/** Labels for bags, jerrycans and trays, and every print of them. */
export function createLabelsService({ laboratory }: { laboratory: Laboratory }) {
  async function readIn(sql: RowsSql, itemId: string): Promise<Label> {
    const item = await findLabelledItem(sql, itemId)
    if (!item) throw notFound('item')
    refuseWeighed(item)
    return {
      itemId,
      code: item.code,
      square: codeSquare(item.code),
      laboratory: item.laboratory,
      lines: linesOf(item),
      prints: await findPrints(sql, itemId),
    }
  }

  const read = (actor: Actor, itemId: string): Promise<Label> =>
    laboratory.inLaboratory(actor, (tx) => readIn(rowsSqlOf(tx), itemId))

  /** @param key Idempotency-Key: sent again, it is the same print */
  async function print(actor: Actor, itemId: string, input: PrintLabels, key: string): Promise<Label> {
    await runOnce(laboratory, actor, {
      key,
      route: 'label:print',
      input: { itemId, ...input },
      work: async (tx) => {
        const { code } = await readIn(rowsSqlOf(tx), itemId)
        tx.record({
          action: 'label:print',
          subjectKind: 'item',
          subjectId: itemId,
          topics: [`label:${itemId}`],
          content: { code, count: input.count },
        })
        return null
      },
    })
    return read(actor, itemId)
  }

  return { read, print }
}

/** A paper label that comes off between two weighings is weighed as loss: 0.8 g is 26 g/m² of a disc. Common practice, no source. */
function refuseWeighed({ kind, code }: LabelledItem): void {
  if (kind === 'specimen')
    throw new AppError(
      'refused-by-rule',
      `${code} is weighed, and a label that comes off is weighed as loss: write its code with a paint marker, and label its tray or rack.`,
    )
}

/** A calendar day as it stands on a label: "9 Nov 2026". */
function dayWords(day: string): string {
  const format = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', day: 'numeric', month: 'short', year: 'numeric' })
  return format.format(new Date(`${day}T12:00:00Z`)).replace('Sept', 'Sep')
}

function linesOf({ name, materialKind, sourceName, supplier, lot, receivedOn, fraction }: LabelledItem): string[] {
  return [
    name ?? materialKind ?? '',
    // A quarry that supplies itself is named once: a label has little room.
    [...new Set([sourceName, supplier])].filter(Boolean).join(', '),
    [lot && `lot ${lot}`, receivedOn && `received ${dayWords(receivedOn)}`].filter(Boolean).join(', '),
    fraction ?? '',
  ].filter((line) => line !== '')
}
