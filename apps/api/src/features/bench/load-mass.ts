import type { CheckSpecimen, LoadReading } from '@curebook/contract/loads'
import type { EditionParameters } from '@curebook/trade/procedure/declaration'
import { massRuleOf, type MassRule, massState } from '@curebook/trade/procedure/constant-mass'
import { spanWords } from '#platform/span-words'
import type { LoadReadingRow, MemberRow } from './loads.repository.ts'

/** A check specimen with what it takes to judge the load by it. */
export type JudgedCheck = CheckSpecimen & {
  /** What its weighings say without naming it or its masses: a load may hold several clients' specimens. */
  readonly shared: string
  /** The earlier of the two weighings that are compared. */
  readonly comparedFrom: string | null
  /** Nothing of it counts, or ever will: it is asked no more. */
  readonly aside: boolean
}
/** Of readings that do not count, why and who can release them. */
export type WaitingSentences = ReadonlyMap<string, string>

/** What the warm weighings of each check specimen of a load say, in the order in which they were begun. */
export function checksOf(
  readings: readonly LoadReadingRow[],
  members: readonly MemberRow[],
  waiting: WaitingSentences,
): JudgedCheck[] {
  const masses = readings.filter(({ stepKey }) => stepKey === 'warm-mass')
  return [...new Set(masses.map(({ key }) => key))].flatMap((testId) => {
    const member = members.find((one) => one.testId === testId)
    const rule = member && massRuleOf(JSON.parse(member.parametersText) as EditionParameters)
    if (!member || !rule) return []
    const own = masses.filter(({ key }) => key === testId)
    const counting = own.filter((row) => !row.waits && !row.leftOut)
    const held = own.filter((row) => row.waits && !row.leftOut).length
    const name = `${member.label} (${member.code})`
    return [
      {
        testId,
        code: member.code,
        label: member.label,
        weighings: own.map((row) => toLoadReading(row, waiting)),
        ...(counting.length === 0 ? heldOf(name, held) : withHeld(saidOf(name, counting, rule), held)),
      },
    ]
  })
}

/** @param waiting of each reading that does not count, why and who can release it */
export function toLoadReading(
  { id, typed, unit, at, membershipId, name, initials, instrumentId, instrumentCode, waits, leftOut }: LoadReadingRow,
  waiting: WaitingSentences,
): LoadReading {
  return {
    id,
    typed,
    unit,
    at: at.toISOString(),
    by: { membershipId, name, initials },
    instrument: instrumentId === null ? null : { id: instrumentId, code: instrumentCode! },
    waits: waits && !leftOut ? (waiting.get(id) ?? 'Kept, does not count until released.') : null,
    leftOut,
  }
}

/** A check specimen of which nothing counts proves nothing; one that was left out whole is asked no more. */
function heldOf(name: string, held: number) {
  const aside = held === 0
  return {
    state: 'held' as const,
    aside,
    comparedFrom: null,
    sentence: aside ? `${name}: what was weighed was left out.` : `${name}: ${heldWords(held)}`,
    shared: aside ? 'A check specimen was left out.' : `A check specimen: ${heldWords(held)}`,
  }
}

function withHeld<Said extends { sentence: string; shared: string }>(said: Said, held: number) {
  if (held === 0) return { ...said, aside: false }
  return {
    ...said,
    aside: false,
    sentence: `${said.sentence} Besides, ${heldWords(held)}`,
    shared: `${said.shared} Besides, ${heldWords(held)}`,
  }
}

const heldWords = (held: number) =>
  `${held} ${held === 1 ? 'weighing waits' : 'weighings wait'} for release and ${held === 1 ? 'proves' : 'prove'} nothing yet.`

function saidOf(name: string, own: readonly LoadReadingRow[], rule: MassRule) {
  const { state, change, from, to } = massState(
    own.map(({ at, value }) => ({ at: at.toISOString(), value })),
    rule,
  )
  if (!from || !to || change === null)
    return {
      state,
      comparedFrom: null,
      sentence: `${name}: ${to?.value} g; weigh it again ${spanWords(rule.intervalMs / 1000)} after that or later.`,
      shared: 'A check specimen was weighed once, or not far enough apart.',
    }
  const span = spanWords((Date.parse(to.at) - Date.parse(from.at)) / 1000)
  const judged =
    state === 'constant' ? `no more than ${rule.limit} g: constant.` : `more than ${rule.limit} g: still drying.`
  return {
    state,
    comparedFrom: from.at,
    sentence: `${name}: ${from.value} → ${to.value} g, ${change} g in ${span}, ${judged}`,
    shared: `A check specimen: ${change} g in ${span}, ${judged}`,
  }
}

export type ConstantMass = { readonly reached: boolean; readonly sentence: string; readonly shared: string }

/**
 * Whether a load is dry: every check specimen constant, at least one weighed, and nothing put in after the earlier weighing
 * of any of them, since a check specimen speaks only for what has been in as long as itself.
 * @param since when each specimen inside was put in
 */
export function constantMassOf(checks: readonly JudgedCheck[], since: readonly string[]): ConstantMass {
  const asked = checks.filter(({ aside }) => !aside)
  if (asked.length === 0) {
    const sentence = 'No check specimen has been weighed: take one or two, of the richest content and put in last.'
    return { reached: false, sentence, shared: sentence }
  }
  const late = since.filter((at) =>
    asked.some(({ comparedFrom }) => comparedFrom !== null && Date.parse(at) > Date.parse(comparedFrom)),
  ).length
  const lateSaid =
    late === 0
      ? []
      : [`${late} ${late === 1 ? 'specimen was' : 'specimens were'} put in after the weighing it is compared with.`]
  return {
    reached: late === 0 && asked.every(({ state }) => state === 'constant'),
    sentence: [...asked.map(({ sentence }) => sentence), ...lateSaid].join(' '),
    shared: [...asked.map(({ shared }) => shared), ...lateSaid].join(' '),
  }
}
