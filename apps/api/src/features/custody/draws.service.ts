import type { DrawSource } from '@curebook/contract/bench'
import { accountOf, massLeft, overdrawnBy } from '@curebook/trade/custody/drawn'
import type { LedgerRow } from '#platform/ledger-content'
import { AppError, invalidField } from '#platform/problem'
import type { RowsSql } from '#platform/sql-rows'
import { findDraws, findMoves } from './drawn.repository.ts'
import {
  findDraw,
  findDrawnItem,
  findNamedOf,
  findSampleOf,
  findSources,
  insertDraw,
  lockItems,
  type SourceRow,
} from './draws.repository.ts'

type Weighed = {
  readonly revisionId: string | null
  readonly component: string
  /** The bag or container that was named; null where none is, undefined where nothing is said of it. */
  readonly drawnFromId: string | null | undefined
  /** The reading that this one corrects: where nothing is said, it is of the same bag. */
  readonly supersedesId: string | null
}
type Drawn = { readonly itemId: string; readonly named: boolean }
/** Out of which item a component is weighed, and out of which the reading in whose place it stands was. */
export type DrawnFrom = { readonly from: Drawn; readonly before: Drawn | null }

/**
 * Out of which item a component of a batch is weighed: the bag that is named, the one before where a correction says
 * nothing of it, or else the sample that the revision names. Null where nothing is drawn.
 */
export async function drawnFromIn(sql: RowsSql, weighed: Weighed): Promise<DrawnFrom | null> {
  const { revisionId, component, drawnFromId, supersedesId } = weighed
  const sampleId = revisionId && (await findSampleOf(sql, revisionId, component))
  if (!sampleId) {
    if (drawnFromId == null) return null
    throw invalidField('drawnFromId', 'The design names no sample for this component: leave the bag out.')
  }
  const unnamed = { itemId: sampleId, named: false }
  const before = supersedesId === null ? null : ((await findDraw(sql, supersedesId)) ?? unnamed)
  if (drawnFromId == null) return { from: drawnFromId === null ? unnamed : (before ?? unnamed), before }
  return { from: await namedIn(sql, drawnFromId, sampleId), before }
}

/**
 * Puts down out of which item a component of a batch was weighed. Last in the reading's transaction.
 *
 * Order of locks, here and everywhere: tests (`test_now`, by id), then items (`item_now`, by id), then counters. An act of
 * custody takes the item's lock alone, so that a weighing and a split follow one another: whichever comes second sees the
 * other, and the weighing names the last act of custody that it came after.
 * @returns its row for the ledger, none where nothing is drawn
 */
export async function recordDrawIn(sql: RowsSql, readingId: string, drawn: DrawnFrom | null): Promise<LedgerRow[]> {
  if (drawn === null) return []
  const { from, before } = drawn
  const last = await lockItems(sql, [from.itemId, ...(before ? [before.itemId] : [])])
  const moved = before !== null && before.itemId !== from.itemId
  return [
    await insertDraw(sql, {
      readingId,
      itemId: from.itemId,
      named: from.named,
      afterEventId: last.get(from.itemId) ?? null,
      givenBackAfterId: moved ? (last.get(before.itemId) ?? null) : null,
    }),
  ]
}

/**
 * Whether a weighing may still be taken back as far as custody goes: not once an act of custody was told of what it drew
 * from, which knows of the weighing in its mass. Last in the withdrawal's transaction, for the item's lock.
 * @returns whether it drew of anything
 */
export async function refuseKnownDrawIn(sql: RowsSql, readingId: string): Promise<boolean> {
  const draw = await findDraw(sql, readingId)
  if (!draw) return false
  const last = await lockItems(sql, [draw.itemId])
  if ((last.get(draw.itemId) ?? null) !== draw.afterEventId)
    throw new AppError(
      'refused-by-rule',
      'What it was weighed out of was split, moved or handed on since, and the mass told then knows of this weighing. Correct it instead, with a reason.',
    )
  return true
}

async function namedIn(sql: RowsSql, id: string, sampleId: string): Promise<Drawn> {
  const item = await findDrawnItem(sql, id)
  if (!item) throw invalidField('drawnFromId', 'There is no such bag in this laboratory: choose one of the list.')
  const sample = await findDrawnItem(sql, sampleId)
  if (item.sampleId !== sampleId || !['sample', 'split', 'bag'].includes(item.kind))
    throw invalidField(
      'drawnFromId',
      `${item.code} is not of ${sample?.code}, which the design names: choose a bag of ${sample?.code}.`,
    )
  return { itemId: id, named: true }
}

/** What a batch of the revision may be weighed out of, by component: what is left of each, and which is in use. */
export async function drawSourcesIn(sql: RowsSql, revisionId: string): Promise<DrawSource[]> {
  const rows = await findSources(sql, revisionId)
  const ids = [...new Set(rows.map(({ itemId }) => itemId))]
  const moves = await findMoves(sql, ids)
  const draws = await findDraws(sql, [...new Set(rows.map(({ sampleId }) => sampleId))])
  const items = (component: string) => rows.filter((row) => row.component === component)
  return [...new Set(rows.map(({ component }) => component))].map((component) => {
    const sources = items(component).map((row) => toSource(row, accountOf(moves.get(row.itemId) ?? []).sinceG))
    const used = draws.findLast(
      (draw) => draw.component === component && draw.named && sources.some((source) => isInUse(source, draw.itemId)),
    )
    return { component, items: sources, inUseId: used?.itemId ?? null }
  })
}

type Source = DrawSource['items'][number]

function toSource({ itemId, code, kind, fraction, recordedG, status }: SourceRow, sinceG: string): Source {
  return {
    id: itemId,
    code,
    kind,
    fraction,
    leftG: massLeft(recordedG, sinceG),
    overG: overdrawnBy(recordedG, sinceG),
    here: status === 'with',
  }
}

function isInUse({ id, leftG, here }: Source, itemId: string): boolean {
  return id === itemId && here && leftG !== '0'
}

/**
 * Bags that a batch drew of and that hold less by the record than was weighed out of them, each in a sentence. Kept all the
 * same: a mass on record may be wrong.
 */
export async function overdrawnByBatch(sql: RowsSql, testId: string): Promise<{ sentence: string; codes: string[] }[]> {
  const items = await findNamedOf(sql, testId)
  const moves = await findMoves(
    sql,
    items.map(({ id }) => id),
  )
  return items.flatMap(({ id, code, recordedG }) => {
    const { sinceG } = accountOf(moves.get(id) ?? [])
    const over = overdrawnBy(recordedG, sinceG)
    if (over === null) return []
    const sentence = `${code} held ${recordedG} g by the record, and ${sinceG} g were weighed out of it: ${over} g more. A mass on record may be wrong, or it was another bag.`
    return [{ sentence, codes: [code] }]
  })
}
