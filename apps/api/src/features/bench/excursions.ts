import { excursionsOf, type LoggedValue } from '@curebook/trade/procedure/condition-log'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { findLastValueAt, findLog, lockLog, toLogged } from './conditions.repository.ts'
import { type ExcursionRow, findExcursions, insertExcursion } from './excursions.repository.ts'
import { closeBaseless, noteDecided, type Seen } from './excursion-outcomes.ts'
import { covers, type Found, isEqual, isSame, overlaps, spanText, touches } from './excursion-spans.ts'
import { type HeldStay, type OvenAtHand, staysIn } from './held-stays.ts'
import { findLinked, linkTests, lockDeviation, openLinked } from './linked-deviations.repository.ts'
import { topicsOf } from './topics.ts'

/** How far around new values the log is read, so that a whole weekend is seen as one. */
const aroundMs = 7 * 86_400_000

/**
 * Looks at the log around new values: for every time out of limits in which specimens stood there one deviation is opened, or
 * the undecided one grows. An undecided one that rests on nothing any more is closed with the reason. What has been decided
 * stays as it was decided: what goes beyond it is another deviation, and what does not is noted on it.
 * @param because what changed the log, where it was more than another value
 * @returns the deviations opened or grown
 */
export async function judgeLog(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  oven: OvenAtHand,
  span: { from: Date; until: Date },
  because: string | null = null,
): Promise<string[]> {
  const from = await beginningOf(sql, oven.id, new Date(span.from.getTime() - aroundMs))
  const until = await endOf(sql, oven.id, from, new Date(span.until.getTime() + aroundMs))
  const log = toLogged(await findLog(sql, oven.id, from, until))
  const stays = await staysIn(sql, methods, oven, from)
  const seen: Seen = { log, stays, found: excursionsWith(log, stays), zone: await zoneOf(sql), because }
  await closeBaseless(sql, await findExcursionsUntil(sql, oven.id, from, until), seen)
  const touched: string[] = []
  for (const found of seen.found) {
    const id = await keepExcursion(sql, oven, found, await standingOf(sql, oven.id, from, found), seen.zone)
    if (id) touched.push(id)
  }
  await noteDecided(sql, await findExcursionsUntil(sql, oven.id, from, until), seen)
  return touched
}

/**
 * A stay that is told to have begun or ended before values that are in the log already, late or from paper, is held against
 * them anew. Values that arrive at the same moment wait, or are waited for.
 */
export async function judgeStays(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  oven: OvenAtHand,
  from: Date,
): Promise<void> {
  await lockLog(sql, oven.id)
  const until = await findLastValueAt(sql, oven.id)
  if (until && until.getTime() >= from.getTime()) await judgeLog(sql, methods, oven, { from, until })
}

/** From where the log is read: what stands on record and lasts longer than the time around is read from its first value on. */
async function beginningOf(sql: RowsSql, instrumentId: string, from: Date): Promise<Date> {
  const earliest = Math.min(...(await findExcursions(sql, instrumentId, from)).map(({ fromAt }) => fromAt.getTime()))
  return earliest < from.getTime() ? beginningOf(sql, instrumentId, new Date(earliest)) : from
}

/** Up to where the log is read: what stands on record and begins before is read to its end. */
async function endOf(sql: RowsSql, instrumentId: string, from: Date, until: Date): Promise<Date> {
  const rows = await findExcursionsUntil(sql, instrumentId, from, until)
  return new Date(Math.max(until.getTime(), ...rows.map(({ untilAt }) => untilAt.getTime())))
}

async function findExcursionsUntil(sql: RowsSql, instrumentId: string, from: Date, until: Date) {
  return (await findExcursions(sql, instrumentId, from)).filter(({ fromAt }) => fromAt.getTime() <= until.getTime())
}

/**
 * What is on record of a time out of limits. It is read for each one anew: a late value inside cuts one in two, of which the
 * first takes the place of what stood and the second is another. A decision on it is waited for, so that nothing grows
 * under somebody who is deciding.
 */
async function standingOf(sql: RowsSql, instrumentId: string, from: Date, found: Found): Promise<ExcursionRow[]> {
  const read = async () =>
    (await findExcursions(sql, instrumentId, from)).filter((row) => isSame(row, found.held) && touches(row, found))
  const open = (await read()).filter(({ decided }) => !decided)
  for (const id of open.map(({ deviationId }) => deviationId).sort()) await lockDeviation(sql, id)
  return read()
}

/**
 * The times out of limits with the specimens inside then, apart for each pair of limits that anybody asks for. What was read
 * after the last of them was taken out concerns nobody.
 */
function excursionsWith(log: readonly LoggedValue[], stays: readonly HeldStay[]): Found[] {
  const limits = new Map(stays.map(({ held }) => [`${held.low} ${held.high}`, held]))
  return [...limits.values()].flatMap((held) => {
    const own = stays.filter((stay) => isSame(stay.held, held))
    const concerning = log.filter(({ at }) =>
      own.some(({ until }) => until === null || Date.parse(until) >= Date.parse(at)),
    )
    return excursionsOf(concerning, held).flatMap((excursion) => {
      const inside = own.filter((stay) => overlaps(stay, excursion))
      if (inside.length === 0) return []
      const ended = excursion.ended || inside.every(({ until }) => until !== null)
      return [{ ...excursion, ended, held, stays: inside }]
    })
  })
}

async function keepExcursion(
  sql: RowsSql,
  oven: OvenAtHand,
  found: Found,
  same: readonly ExcursionRow[],
  zone: string,
): Promise<string | null> {
  const isCovered = same.some((row) => row.decided && covers(row, found))
  const stays = isCovered ? await withoutWord(sql, same, found.stays) : found.stays
  if (stays.length === 0) return null
  const open = same.find(({ decided }) => !decided)
  const tests = stays.map(({ testId, loadId }) => ({ testId, loadId }))
  const { target, tolerance, unit } = found.held
  const opened = open
    ? { id: open.deviationId, rows: await linkTests(sql, open.deviationId, tests) }
    : await openLinked(sql, {
        text: `${oven.code} was out of ${target} ± ${tolerance} ${unit}`,
        instrumentId: oven.id,
        tests,
      })
  const rows: LedgerRow[] = [...opened.rows]
  if (!open || !isEqual(open, found))
    rows.push(
      await insertExcursion(sql, {
        deviationId: opened.id,
        low: found.held.low,
        high: found.held.high,
        fromAt: new Date(found.from),
        untilAt: new Date(found.until),
        peak: found.peak,
        ended: found.ended,
        text: spanText(found, zone),
        supersedesId: open?.id ?? null,
      }),
    )
  if (rows.length === 0) return null
  sql.record({
    action: open ? 'deviation:grow' : 'deviation:open',
    subjectKind: 'deviation',
    subjectId: opened.id,
    topics: ['deviations', 'loads', ...stays.flatMap(({ testId, designId }) => topicsOf({ id: testId, designId }))],
    rows,
  })
  return opened.id
}

/** Of what is decided already, those inside on whom nobody has had a word: told to be put in after the log was judged. */
async function withoutWord(sql: RowsSql, same: readonly ExcursionRow[], stays: readonly HeldStay[]) {
  const linked = await findLinked(
    sql,
    same.map(({ deviationId }) => deviationId),
  )
  const told = new Set([...linked.values()].flatMap((specimens) => specimens.map(({ testId }) => testId)))
  return stays.filter(({ testId }) => !told.has(testId))
}

/** The laboratory's zone, for words that stand on record. */
export async function zoneOf(sql: RowsSql): Promise<string> {
  const [found] = await sql.rows<{ zone: string }>('select zone from laboratory where id = $1::uuid', [sql.actor.labId])
  return found!.zone
}
