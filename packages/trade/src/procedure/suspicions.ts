import { Decimal, decimal, plainDigits } from '../quantity/decimal.ts'
import type { WeighedPair } from './declaration.ts'

/** Both weighings of one test, as digits in the unit of the pair. */
export type WeighedTest = {
  readonly id: string
  /** Short code as people say it. */
  readonly code: string
  /** Tests of one group (one content) are replicates of each other. */
  readonly group: string
  readonly before: string
  readonly after: string
}

/** Something that looks like a slip. It is said, never acted on: the readings stay as they are. */
export type Suspicion =
  | {
      readonly kind: 'swapped'
      readonly test: string
      /** The other test of the exchange. */
      readonly other: string
      readonly text: string
    }
  | {
      readonly kind: 'transposed'
      readonly test: string
      readonly weighing: 'before' | 'after'
      readonly typed: string
      readonly perhaps: string
      readonly text: string
    }
  | { readonly kind: 'odd'; readonly test: string; readonly text: string }

/**
 * Looks for slips in the weighings of one method: two specimens exchanged at the last weighing, two digits transposed, a
 * difference far from its replicates. Thresholds are common practice, no source; what is said is a question.
 */
export function findSuspicions(pair: WeighedPair, tests: readonly WeighedTest[]): readonly Suspicion[] {
  const swaps = tests.flatMap((one, index) =>
    tests.slice(index + 1).flatMap((other) => (isSwap(pair, one, other, tests) ? [[one, other] as const] : [])),
  )
  const swapped = swaps.flatMap(([one, other]) => [swapOf(pair, one, other, tests), swapOf(pair, other, one, tests)])
  const explained = new Set(swapped.map(({ test }) => test))
  const single = tests
    .filter(({ id }) => !explained.has(id))
    .flatMap((test) => {
      const siblings = siblingsOf(test, tests).filter(({ id }) => !explained.has(id))
      const found = transpositionOf(pair, test, siblings) ?? oddOf(pair, test, siblings)
      return found ? [found] : []
    })
  return [...swapped, ...single]
}

/** The suspicions about one test, seen among the others. */
export function suspicionsOf(
  pair: WeighedPair,
  test: WeighedTest,
  others: readonly WeighedTest[],
): readonly Suspicion[] {
  const all = [test, ...others.filter(({ id }) => id !== test.id)]
  return findSuspicions(pair, all).filter((suspicion) => suspicion.test === test.id)
}

/** How many times more or less than each of its replicates a difference may be before it is asked about. Common practice, no source. */
const farFactor = decimal('2.5')
/** How near to a replicate it must come, put right, for a slip to be named. Common practice, no source. */
const nearFactor = decimal('1.6')

function changeOf(pair: WeighedPair, before: string, after: string): Decimal {
  const lost = decimal(before).minus(after)
  return pair.sense === 'loss' ? lost : lost.neg()
}

function siblingsOf(test: WeighedTest, tests: readonly WeighedTest[], except?: WeighedTest): readonly WeighedTest[] {
  return tests.filter(({ id, group }) => group === test.group && id !== test.id && id !== except?.id)
}

/** The differences of replicates that run the right way: what a difference is compared with. */
function changesOf(pair: WeighedPair, siblings: readonly WeighedTest[]): readonly Decimal[] {
  return siblings.map(({ before, after }) => changeOf(pair, before, after)).filter((change) => change.gt(0))
}

function isPlausible(pair: WeighedPair, change: Decimal): boolean {
  return change.gte(pair.plausible.from) && change.lte(pair.plausible.to)
}

function isWithin(change: Decimal, other: Decimal, factor: Decimal): boolean {
  return change.lte(other.times(factor)) && change.times(factor).gte(other)
}

/** Odd by itself: the wrong way, out of the plausible range, or far from every one of its replicates. */
function isOdd(pair: WeighedPair, change: Decimal, replicates: readonly Decimal[]): boolean {
  if (!isPlausible(pair, change)) return true
  return replicates.length > 0 && !replicates.some((other) => isWithin(change, other, farFactor))
}

function isNear(pair: WeighedPair, change: Decimal, replicates: readonly Decimal[]): boolean {
  if (!isPlausible(pair, change)) return false
  return replicates.length === 0 || replicates.some((other) => isWithin(change, other, nearFactor))
}

/**
 * One goes the wrong way, the other far the right way, and exchanged both are as their replicates are. Where one has no
 * replicate to compare with, the two must then be like each other.
 */
function isSwap(pair: WeighedPair, one: WeighedTest, other: WeighedTest, tests: readonly WeighedTest[]): boolean {
  const seen = [changeOf(pair, one.before, one.after), changeOf(pair, other.before, other.after)] as const
  if (!seen.some((change) => change.lt(0))) return false
  const right = [changeOf(pair, one.before, other.after), changeOf(pair, other.before, one.after)] as const
  const beside = [siblingsOf(one, tests, other), siblingsOf(other, tests, one)].map((item) => changesOf(pair, item))
  const compared = beside.every((replicates) => replicates.length > 0)
  if (!compared && !isWithin(right[0], right[1], farFactor)) return false
  return beside.every(
    (replicates, index) =>
      (replicates.length === 0 || isOdd(pair, seen[index] as Decimal, replicates)) &&
      isNear(pair, right[index] as Decimal, replicates),
  )
}

function swapOf(pair: WeighedPair, test: WeighedTest, other: WeighedTest, tests: readonly WeighedTest[]): Suspicion {
  const [first, second] = tests.indexOf(test) < tests.indexOf(other) ? [test, other] : [other, test]
  const right = [test, other].map((item) => changeOf(pair, item.before, (item === test ? other : test).after))
  const [own, others] = right.map((change) => `${plainDigits(change)} ${pair.unit}`)
  return {
    kind: 'swapped',
    test: test.id,
    other: other.id,
    text: `${first.code} and ${second.code} exchanged? The other way round ${test.code} has a ${pair.sense} of ${own} and ${other.code} of ${others}. Weigh both again.`,
  }
}

function transpositionOf(
  pair: WeighedPair,
  test: WeighedTest,
  siblings: readonly WeighedTest[],
): Extract<Suspicion, { kind: 'transposed' }> | null {
  const replicates = changesOf(pair, siblings)
  const typed = changeOf(pair, test.before, test.after)
  if (replicates.length === 0 || !isOdd(pair, typed, replicates)) return null
  const distance = (change: Decimal) => Decimal.min(...replicates.map((other) => change.minus(other).abs()))
  const candidates = [
    ...transposed(test.after).map(
      (digits) => ({ weighing: 'after', digits, before: test.before, after: digits }) as const,
    ),
    ...transposed(test.before).map(
      (digits) => ({ weighing: 'before', digits, before: digits, after: test.after }) as const,
    ),
  ]
    .map((candidate) => ({ ...candidate, change: changeOf(pair, candidate.before, candidate.after) }))
    .filter(({ change }) => isNear(pair, change, replicates))
    .sort((a, b) => distance(a.change).cmp(distance(b.change)))
  const [best] = candidates
  if (!best) return null
  const from = best.weighing === 'after' ? test.after : test.before
  return {
    kind: 'transposed',
    test: test.id,
    weighing: best.weighing,
    typed: from,
    perhaps: best.digits,
    text: `${from} ${pair.unit} or ${best.digits} ${pair.unit}? ${sayChange(pair, typed)}; ${saySiblings(pair, siblings)}. Weigh ${test.code} again.`,
  }
}

function oddOf(pair: WeighedPair, test: WeighedTest, siblings: readonly WeighedTest[]): Suspicion | null {
  const change = changeOf(pair, test.before, test.after)
  // One replicate alone cannot say which of the two is odd.
  const replicates = siblings.length >= 2 ? changesOf(pair, siblings) : []
  if (!isOdd(pair, change, replicates)) return null
  const { from, to } = pair.plausible
  const beside =
    replicates.length === 0
      ? `usual is ${from} to ${to} ${pair.unit}, ${pair.plausible.source}`
      : saySiblings(pair, siblings)
  return { kind: 'odd', test: test.id, text: `${sayChange(pair, change)}; ${beside}. Weigh ${test.code} again.` }
}

function sayChange(pair: WeighedPair, change: Decimal): string {
  const word = change.gte(0) ? pair.sense : pair.sense === 'loss' ? 'gain' : 'loss'
  const words = word === 'loss' ? 'Loss' : 'Gain'
  return `${words} of ${plainDigits(change.abs())} ${pair.unit}`
}

function saySiblings(pair: WeighedPair, siblings: readonly WeighedTest[]): string {
  const shown = siblings.map(({ before, after }) => plainDigits(changeOf(pair, before, after)))
  return `its replicates show ${shown.join(' and ')} ${pair.unit}`
}

/** The digits with two neighbours exchanged, each way that makes another number. */
function transposed(digits: string): readonly string[] {
  const places = [...digits].flatMap((sign, index) => (/[0-9]/.test(sign) ? [index] : []))
  const results = places.slice(1).map((second, index) => {
    const first = places[index] as number
    const signs = [...digits]
    ;[signs[first], signs[second]] = [signs[second] as string, signs[first] as string]
    return signs.join('')
  })
  return [...new Set(results)].filter((result) => result !== digits)
}
