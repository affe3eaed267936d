import type { Stock } from '@curebook/contract/custody'
import { stockOf } from '@curebook/trade/custody/stock'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { dayOf } from '#platform/row-values'
import { findStock, type StockRow } from './stock.repository.ts'

export type StockService = ReturnType<typeof createStockService>

/** What is left of what was received, computed when read. */
export function createStockService({ laboratory }: { laboratory: Laboratory }) {
  return {
    list: (actor: Actor) =>
      laboratory.inLaboratory(actor, async (tx) => ({ items: (await findStock(tx)).map(toStock), next: null })),
  }
}

function toStock(row: StockRow): Stock {
  return { ...row, receivedOn: dayOf(row.receivedOn), ...stockOf(row) }
}
