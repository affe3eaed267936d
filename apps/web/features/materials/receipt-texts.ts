import type { CustodyEvent, Receipt } from '@curebook/contract/custody'

/** Fields of a receipt by name, as they are filled in. */
export type ReceiptTexts = Partial<
  Record<
    | 'containerCount'
    | 'containerKind'
    | 'containers'
    | 'condition'
    | 'sealIntact'
    | 'temperature'
    | 'madeOn'
    | 'placeId'
    | 'sampledBy'
    | 'sampledWhere'
    | 'sampledHow'
    | 'safetySheet'
    | 'safetySheetName',
    string
  >
>

/** A receipt that stands, as its fields would be filled in. What was seen on arrival stands in the event of custody. */
export function receiptTexts(
  receipt: Receipt | null,
  { condition, sealIntact, temperature, to }: CustodyEvent,
): ReceiptTexts {
  const told = (text: string | null | undefined) => text ?? ''
  return {
    containerCount: receipt?.containerCount == null ? '' : String(receipt.containerCount),
    containerKind: told(receipt?.containerKind),
    containers: (receipt?.containers ?? []).map(({ typed }) => typed).join('\n'),
    condition: told(condition),
    sealIntact: sealIntact === null ? '' : sealIntact ? 'yes' : 'no',
    temperature: told(temperature),
    madeOn: told(receipt?.emulsionAge?.madeOn),
    placeId: to?.kind === 'place' ? to.placeId : '',
    sampledBy: told(receipt?.sampledBy),
    sampledWhere: told(receipt?.sampledWhere),
    sampledHow: told(receipt?.sampledHow),
    safetySheet: told(receipt?.safetySheet),
    safetySheetName: told(receipt?.safetySheetName),
  }
}
