import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { units, type Unit } from '@curebook/trade/quantity/unit-table'
import { convert } from '@curebook/trade/quantity/units'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { digitsOf } from '#platform/row-values'

/** What came of one sample: its containers by mass in g, those by volume in mL. */
export type ReceivedAmount = { readonly massG: string; readonly volumeMl: string }

/** By sample, what its containers held when they were received; samples without a container on record are not there. */
export async function receivedAmounts(
  { prisma, actor }: LaboratoryTransaction,
  itemIds: readonly string[],
): Promise<ReadonlyMap<string, ReceivedAmount>> {
  const receipts = await prisma.receipt.findMany({
    where: { labId: actor.labId, itemId: { in: [...itemIds] }, custodyEvent: { supersededBy: null } },
    select: { itemId: true, containers: { select: { amount: true, unit: true } } },
  })
  const amounts = new Map<string, ReceivedAmount>()
  for (const { itemId, containers } of receipts)
    for (const { amount, unit } of containers) {
      const { massG, volumeMl } = amounts.get(itemId) ?? { massG: '0', volumeMl: '0' }
      const value = decimal(digitsOf(amount))
      // Stored by the receipt, which takes a mass or a volume only.
      const own = unit as Unit
      amounts.set(
        itemId,
        units[own].dimension === 'mass'
          ? { massG: plainDigits(convert(value, own, 'g').plus(massG)), volumeMl }
          : { massG, volumeMl: plainDigits(convert(value, own, 'mL').plus(volumeMl)) },
      )
    }
  return amounts
}
