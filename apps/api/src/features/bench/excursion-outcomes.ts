import { excursionsOf, type LoggedValue } from '@curebook/trade/procedure/condition-log'
import type { LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import type { ExcursionRow } from './excursions.repository.ts'
import { findNotes, insertRuleEvent } from './deviation-notes.repository.ts'
import { isDecided } from './deviation-state.repository.ts'
import { covers, type Found, isSame, isSameSpan, piecesText, touches } from './excursion-spans.ts'
import type { HeldStay } from './held-stays.ts'
import { findLinked, lockDeviation } from './linked-deviations.repository.ts'
import { topicsOf } from './topics.ts'

/** The log as it stands now, and what of it went out of limits with somebody inside. */
export type Seen = {
  readonly log: readonly LoggedValue[]
  readonly stays: readonly HeldStay[]
  readonly found: readonly Found[]
  readonly zone: string
  readonly because: string | null
}
type Linked = { readonly testId: string; readonly designId: string | null }

/**
 * Undecided deviations that rest on nothing any more are closed, never deleted: the log as it stands shows nothing, or what
 * they name stood there no longer. For those that did stand there another is opened.
 */
export async function closeBaseless(sql: RowsSql, rows: readonly ExcursionRow[], seen: Seen): Promise<void> {
  const undecided = rows.filter(({ decided }) => !decided)
  const linkedTo = await findLinked(sql, idsOf(undecided))
  for (const row of undecided) {
    const [piece] = piecesOf(row, seen)
    const linked = linkedTo.get(row.deviationId) ?? []
    if (piece && goneFrom(linked, [piece], seen).length === 0) continue
    await lockDeviation(sql, row.deviationId)
    // Somebody may have decided it while it was waited for: then it is noted, below.
    if (await isDecided(sql, row.deviationId)) continue
    const reason = [baselessText(row, piece, seen), seen.because].filter(Boolean).join(' ')
    keep(sql, row, linked, 'deviation:close', await insertRuleEvent(sql, row.deviationId, 'close', reason))
  }
}

/** What is found now of a time that was decided stands beside the decision, once. */
export async function noteDecided(sql: RowsSql, rows: readonly ExcursionRow[], seen: Seen): Promise<void> {
  const decided = rows.filter((row) => row.decided)
  const [linkedTo, notes] = await Promise.all([findLinked(sql, idsOf(decided)), findNotes(sql, idsOf(decided))])
  for (const row of decided) {
    const pieces = piecesOf(row, seen)
    const linked = linkedTo.get(row.deviationId) ?? []
    const gone = goneFrom(linked, pieces, seen)
    const finding = findingText(row, pieces, gone.length, seen)
    if (finding === null) continue
    const last = notes.get(row.deviationId)?.at(-1)
    if (last?.text.startsWith(finding)) continue
    const text = [finding, seen.because].filter(Boolean).join(' ')
    keep(sql, row, linked, 'deviation:note', await insertRuleEvent(sql, row.deviationId, 'notify', text))
  }
}

function piecesOf(row: ExcursionRow, { found }: Seen): readonly Found[] {
  return found.filter((piece) => isSame(row, piece.held) && touches(row, piece))
}

function idsOf(rows: readonly ExcursionRow[]): readonly string[] {
  return rows.map(({ deviationId }) => deviationId)
}

/** Named specimens that did not stand inside then, by what is told now; of void ones nothing more is said. */
function goneFrom(linked: readonly Linked[], pieces: readonly Found[], { stays }: Seen): readonly Linked[] {
  const inside = new Set(pieces.flatMap((piece) => piece.stays.map(({ testId }) => testId)))
  return linked.filter(({ testId }) => !inside.has(testId) && stays.some((stay) => stay.testId === testId))
}

/** Printed for every client of it: it names no specimen. */
function baselessText(row: ExcursionRow, piece: Found | undefined, { log }: Seen): string {
  if (piece)
    return 'Told since: not all that it names stood inside then. For those that did, another stands in its place.'
  return isStillOut(row, log)
    ? 'Told since: what it names did not stand inside then.'
    : 'By the log as it stands now nothing was out of limits then.'
}

/** What a decision did not know, as far as no other deviation tells it; null where there is nothing. */
function findingText(row: ExcursionRow, pieces: readonly Found[], gone: number, { zone, log }: Seen): string | null {
  if (!isStillOut(row, log))
    return 'By the log as it stands now nothing was out of limits in this time. The decision stands.'
  const known = pieces.filter((piece) => covers(row, piece))
  const isAsDecided = known.length === 0 || (pieces.length === 1 && isSameSpan(row, known[0]!))
  const parts = [
    ...(isAsDecided
      ? []
      : [`By the log as it stands now it was out of limits in this time ${piecesText(known, zone)}.`]),
    ...(gone === 0 ? [] : [`Told since: ${gone} of the specimens it names did not stand inside then.`]),
  ]
  return parts.length === 0 ? null : [...parts, 'The decision stands.'].join(' ')
}

/** Whether the log itself, whoever stood inside, shows anything out of these limits in this time. */
function isStillOut(row: ExcursionRow, log: Seen['log']): boolean {
  return excursionsOf(log, row).some((excursion) => touches(row, excursion))
}

function keep(sql: RowsSql, row: ExcursionRow, linked: readonly Linked[], action: string, written: LedgerRow): void {
  sql.record({
    action,
    subjectKind: 'deviation',
    subjectId: row.deviationId,
    topics: ['deviations', 'loads', ...linked.flatMap(({ testId, designId }) => topicsOf({ id: testId, designId }))],
    rows: [written],
  })
}
