import type { OpenedBag, Stock } from '@curebook/contract/custody'
import { accountOf, massLeft, overdrawnBy, type Move } from '@curebook/trade/custody/drawn'
import { stockOf } from '@curebook/trade/custody/stock'
import type { Actor } from '#platform/actor'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { dayOf } from '#platform/row-values'
import { rowsSqlOf } from '#platform/sql-rows'
import { findDraws, findMoves, type DrawRow } from './drawn.repository.ts'
import { findOpened, findStock, type OpenedRow, type StockRow } from './stock.repository.ts'

export type StockService = ReturnType<typeof createStockService>
type Moves = ReadonlyMap<string, readonly Move[]>

/** What is left of what was received, computed when read. */
export function createStockService({ laboratory }: { laboratory: Laboratory }) {
  return {
    list: (actor: Actor) => laboratory.inLaboratory(actor, async (tx) => ({ items: await readStock(tx), next: null })),
  }
}

async function readStock(tx: LaboratoryTransaction): Promise<Stock[]> {
  const [samples, opened] = [await findStock(tx), await findOpened(tx)]
  const sql = rowsSqlOf(tx)
  const moves = await findMoves(
    sql,
    [...samples, ...opened].map(({ id }) => id),
  )
  const draws = await findDraws(
    sql,
    opened.map(({ id }) => id),
  )
  const bags = opened.map((row) => ({ sampleId: row.sampleId, bag: toOpened(row, moves, draws) }))
  return samples.map((row) =>
    toStock(
      row,
      moves,
      bags.flatMap(({ sampleId, bag }) => (sampleId === row.id ? bag : [])),
    ),
  )
}

function toStock(row: StockRow, moves: Moves, opened: OpenedBag[]): Stock {
  const { goneG } = accountOf(moves.get(row.id) ?? [])
  return { ...row, receivedOn: dayOf(row.receivedOn), goneG, ...stockOf({ ...row, goneG }), opened }
}

function toOpened({ sampleId: _, recordedG, ...row }: OpenedRow, moves: Moves, draws: readonly DrawRow[]): OpenedBag {
  const { sinceG } = accountOf(moves.get(row.id) ?? [])
  return {
    ...row,
    leftG: massLeft(recordedG, sinceG),
    overG: overdrawnBy(recordedG, sinceG),
    draws: draws
      .filter(({ rootId, itemId }) => rootId === row.id && itemId === row.id)
      .map(({ testId, batchCode, massG }) => ({ testId, batchCode, massG })),
  }
}
