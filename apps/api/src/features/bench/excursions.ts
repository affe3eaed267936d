import {
  type Excursion,
  excursionsOf,
  heldCondition,
  type HeldCondition,
} from '@curebook/trade/procedure/condition-log'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { type StayKind, staysOf } from '@curebook/trade/procedure/stay'
import { decimal } from '@curebook/trade/quantity/decimal'
import type { LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import {
  type ExcursionRow,
  findExcursions,
  findLastValueAt,
  findLog,
  findPutIn,
  findStepsInto,
  insertExcursion,
  lockLog,
  toLogged,
} from './conditions.repository.ts'
import { instantWords } from './instant-words.ts'
import { findLinked, linkTests, lockDeviation, openLinked } from './linked-deviations.repository.ts'
import { findActs } from './loads.repository.ts'
import { methodOf } from './settle.ts'
import { topicsOf } from './topics.ts'

/** How far back a specimen may have been put in that still stands there: six days of soak, and a week of grace. */
const stayMs = 14 * 86_400_000
/** How far around new values the log is read, so that a whole weekend is seen as one. */
const aroundMs = 7 * 86_400_000

export type OvenAtHand = { readonly id: string; readonly code: string; readonly kind: StayKind }

/** A specimen's time in the instrument and what its edition asks for while it stands there. */
export type HeldStay = {
  readonly testId: string
  readonly designId: string | null
  readonly loadId: string | null
  readonly from: string
  readonly until: string | null
  readonly held: HeldCondition
}

/** Who stood in an instrument since an instant, and what each asked for. */
export async function staysIn(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  oven: OvenAtHand,
  since: Date,
): Promise<HeldStay[]> {
  const tests = await findPutIn(sql, oven.id, new Date(since.getTime() - stayMs))
  const ids = tests.map(({ testId }) => testId)
  const [acts, into] = [await findActs(sql, ids), await findStepsInto(sql, oven.id, ids)]
  return tests.flatMap(({ testId, methodKey, parametersText, designId }) => {
    const method = methodOf(methods, methodKey)
    const events = acts
      .filter((act) => act.testId === testId)
      .map(({ step, act, at }) => ({ step, act, at: at.toISOString() }))
    return staysOf(method, oven.kind, events).flatMap(({ step, from, until }) => {
      const put = into.find((one) => one.testId === testId && one.step === step)
      const declared = method.steps.find(({ key }) => key === step)!
      const held = heldCondition(declared, JSON.parse(parametersText) as EditionParameters)
      return put && held ? [{ testId, designId, loadId: put.loadId, from, until, held }] : []
    })
  })
}

type Found = Excursion & { readonly held: HeldCondition; readonly stays: readonly HeldStay[] }

/**
 * Looks at the log around new values: for every time out of limits in which specimens stood there one deviation is opened, or
 * the undecided one grows. What has been decided stays as it was decided; what grows beyond it is another deviation.
 * @returns the deviations opened or grown
 */
export async function judgeLog(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  oven: OvenAtHand,
  span: { from: Date; until: Date },
): Promise<string[]> {
  const from = await beginningOf(sql, oven.id, new Date(span.from.getTime() - aroundMs))
  const log = toLogged(await findLog(sql, oven.id, from, new Date(span.until.getTime() + aroundMs)))
  const stays = await staysIn(sql, methods, oven, from)
  const zone = await zoneOf(sql)
  const touched: string[] = []
  for (const found of excursionsWith(log, stays)) {
    const id = await keepExcursion(sql, oven, found, await standingOf(sql, oven.id, from, found), zone)
    if (id) touched.push(id)
  }
  return touched
}

/**
 * What is put in is held against the values that are in the log already, where it is told to have been put in before them:
 * late, or from paper. Values that arrive at the same moment wait, or are waited for.
 */
export async function judgePutIn(
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

/** The times out of limits with the specimens inside then, apart for each pair of limits that anybody asks for. */
function excursionsWith(log: ReturnType<typeof toLogged>, stays: readonly HeldStay[]): Found[] {
  const limits = new Map(stays.map(({ held }) => [`${held.low} ${held.high}`, held]))
  return [...limits.values()].flatMap((held) =>
    excursionsOf(log, held).flatMap((excursion) => {
      const inside = stays.filter((stay) => isSame(stay.held, held) && overlaps(stay, excursion))
      return inside.length > 0 ? [{ ...excursion, held, stays: inside }] : []
    }),
  )
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

function spanText({ from, until, peak, ended, held }: Found, zone: string): string {
  const farthest = `${decimal(peak).gt(held.high) ? 'highest' : 'lowest'} ${peak} ${held.unit}`
  return ended
    ? `from ${instantWords(zone, from)} to ${instantWords(zone, until)}, ${farthest}.`
    : `from ${instantWords(zone, from)} on, last seen so ${instantWords(zone, until)}, ${farthest}.`
}

async function zoneOf(sql: RowsSql): Promise<string> {
  const [found] = await sql.rows<{ zone: string }>('select zone from laboratory where id = $1::uuid', [sql.actor.labId])
  return found!.zone
}

function isSame(one: { low: string; high: string }, other: { low: string; high: string }): boolean {
  return decimal(one.low).eq(other.low) && decimal(one.high).eq(other.high)
}

function overlaps(stay: HeldStay, { from, until }: Excursion): boolean {
  return (
    Date.parse(stay.from) <= Date.parse(until) && (stay.until === null || Date.parse(stay.until) >= Date.parse(from))
  )
}

/** What is kept and what is seen now are one where they share a moment, whatever order the values came in. */
function touches(row: ExcursionRow, { from, until }: Excursion): boolean {
  return row.fromAt.getTime() <= Date.parse(until) && row.untilAt.getTime() >= Date.parse(from)
}

function covers(row: ExcursionRow, { from, until, peak }: Found): boolean {
  return row.fromAt.getTime() <= Date.parse(from) && row.untilAt.getTime() >= Date.parse(until) && row.peak === peak
}

function isEqual(row: ExcursionRow, { from, until, peak, ended }: Found): boolean {
  return (
    row.fromAt.getTime() === Date.parse(from) &&
    row.untilAt.getTime() === Date.parse(until) &&
    row.peak === peak &&
    row.ended === ended
  )
}
