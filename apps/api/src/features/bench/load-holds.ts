import type { Load } from '@curebook/contract/loads'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { dayOfInstant, notAuthorisedIn } from '#features/people/authorised.service'
import type { LedgerRow } from '#platform/ledger-content'
import type { RowsSql } from '#platform/sql-rows'
import { findHolding, insertHolds } from './holds.repository.ts'
import { instrumentFault } from './instrument-faults.ts'
import { findHeldTexts, findOpenOfLoad } from './load-holds.repository.ts'
import type { WaitingSentences } from './load-mass.ts'
import { findMembers } from './loads.repository.ts'
import { linkTests, type NewLinked, openLinked } from './linked-deviations.repository.ts'
import type { InstrumentAtHand } from './readings.repository.ts'
import { methodOf } from './settle.ts'
import { waitingUnder } from './waiting.ts'

type JudgedLoadReading = {
  readonly load: Load
  readonly readingId: string
  /** The check specimen that was weighed; null for a temperature. */
  readonly testId: string | null
  readonly instrument: InstrumentAtHand | null
  readonly actedAt: Date
  readonly toldAt: Date
  readonly slipOf: string | null
}
type Cause = Pick<NewLinked, 'text' | 'insideWord' | 'instrumentId'> & { readonly kind: 'calibration' | 'competence' }

/**
 * A reading of a load with a lapsed balance or thermometer, or by somebody not authorised, waits like one of a test. It was
 * read for everybody inside, so there is one deviation a load and cause, which stands with each of them and names none.
 * The load is locked. @returns rows for the ledger entry of the reading
 */
export async function holdUnfitLoad(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  judged: JudgedLoadReading,
): Promise<LedgerRow[]> {
  const { load, readingId, slipOf } = judged
  const deviationIds = new Set(slipOf === null ? [] : await findHolding(sql, slipOf))
  const rows: LedgerRow[] = []
  for (const cause of await causesOf(sql, methods, judged)) {
    const open = await findOpenOfLoad(sql, load.id, cause)
    const tests = load.specimens.map(({ testId }) => ({ testId, loadId: load.id }))
    if (open) {
      // Whoever went in since was read for as well.
      rows.push(...(await linkTests(sql, open, tests)))
      deviationIds.add(open)
      continue
    }
    const opened = await openLinked(sql, { ...cause, readingId, tests })
    rows.push(...opened.rows)
    deviationIds.add(opened.id)
  }
  if (deviationIds.size === 0) return []
  return [...rows, ...(await insertHolds(sql, readingId, [...deviationIds]))]
}

async function causesOf(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  { load, testId, instrument, actedAt, toldAt }: JudgedLoadReading,
): Promise<Cause[]> {
  const what = testId === null ? 'Temperature of a load' : 'Check specimen of a load'
  const kept = 'What was read is kept and does not count until released.'
  const calibration = instrument && (await instrumentFault(sql, instrument, actedAt))
  const competence = await competenceFault(sql, methods, { load, testId, day: await dayOfInstant(sql, toldAt) })
  return [
    ...(calibration
      ? [{ kind: 'calibration' as const, text: `${what}: ${calibration} ${kept}`, instrumentId: instrument!.id }]
      : []),
    ...(competence
      ? [
          {
            kind: 'competence' as const,
            text: `${what}: read by ${sql.actor.name}, who was not authorised for it. ${kept}`,
            // Which test it was is another client's, where the load holds several.
            insideWord: competence,
            instrumentId: null,
          },
        ]
      : []),
  ]
}

/**
 * A check specimen is weighed by whoever is authorised for its method, a temperature read by whoever is for one of those inside.
 */
async function competenceFault(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  { load, testId, day }: { load: Load; testId: string | null; day: string },
): Promise<string | null> {
  const members = await findMembers(sql, [load.id])
  const asked = testId === null ? load.specimens.map((specimen) => specimen.testId) : [testId]
  const keys = [...new Set(members.flatMap((one) => (asked.includes(one.testId) ? [one.methodKey] : [])))].sort()
  const faults: string[] = []
  for (const key of keys) {
    const fault = await notAuthorisedIn(sql, {
      membershipId: sql.actor.membershipId,
      name: sql.actor.name,
      activity: `method:${key}`,
      label: methodOf(methods, key).name,
      day,
    })
    if (fault === null) return null
    faults.push(fault)
  }
  return faults.length === 0 ? null : faults.join(' ')
}

/** Of readings of loads that wait: why, since when, and who can release them. */
export async function waitingSentences(sql: RowsSql, readingIds: readonly string[]): Promise<WaitingSentences> {
  if (readingIds.length === 0) return new Map()
  const texts = await findHeldTexts(sql, readingIds)
  const waiting = await waitingUnder(
    sql,
    texts.map(({ deviationId }) => deviationId),
  )
  const sentences = new Map<string, string>()
  for (const { readingId, deviationId, text, insideWord } of texts)
    sentences.set(
      readingId,
      [sentences.get(readingId), insideWord ?? text, waiting.get(deviationId)?.sentence].filter(Boolean).join(' '),
    )
  return sentences
}
