import type { PanelRow } from '@curebook/contract/range'
import type { Calculation } from '@curebook/trade/procedure/calculation'
import { displayDigits } from '@curebook/trade/quantity/display'
import { judge } from '@curebook/trade/specification/judge'
import { endsOf } from '@curebook/trade/specification/limit-decision'
import type { PanelOutcome } from '@curebook/trade/specification/panel'
import {
  panelClassValues,
  type PanelClassValue,
  type PanelTestPoint,
  panelTestValues,
  type PanelTestValue,
  panelValuesApart,
  type PanelValuesApart,
} from '@curebook/trade/specification/panel-tests'
import type { Limit } from '@curebook/trade/specification/specification'
import type { PanelFacts } from './panel-facts.ts'

/** What the tests of one method say of a limit, judged by itself. */
export type MethodAnswer = {
  readonly limitKey: string
  readonly name: string
  readonly emulsionPercent: string | null
  readonly at?: string
  readonly n: number
  /** How many are asked for; null where nothing says it. */
  readonly asked: number | null
  readonly verdict: PanelRow['verdict']
  /** The value or the class, and how it is held against the limit. */
  readonly said: string
  /** Absent where a class answers. */
  readonly outcome?: PanelOutcome
  readonly calculation?: Calculation
  /** The classes in words, where they answer; else null. */
  readonly classes: string | null
}

/** The answers of every method with tests at the content, the one that speaks in front. */
export function answersOf(limit: Limit, facts: PanelFacts): readonly MethodAnswer[] {
  const methodKeys = facts.methodsOf[limit.key] ?? []
  const asked = { content: facts.content?.emulsionPercent ?? null, methodKeys, apart: facts.apart ?? [] }
  const numbers = panelTestValues(limit, facts.tested, asked)
  const classes = panelClassValues(limit, facts.classed ?? [], asked)
  const unjudged = panelValuesApart(limit, facts.tested, asked)
  return methodKeys.flatMap((key) => [
    ...numbers.filter(({ methodKey }) => methodKey === key).map((value) => numberAnswer(limit, value, facts)),
    ...classes.filter(({ methodKey }) => methodKey === key).map((value) => classAnswer(limit, value, facts)),
    ...unjudged.filter(({ methodKey }) => methodKey === key).map((value) => apartAnswer(limit, value, facts)),
  ])
}

/** "8.18 % of dry aggregate": to the second decimal for the eye, all digits in the calculation. */
export function valueWords(digits: string, unit: string, sign: PanelFacts['sign']): string {
  const decimals = Math.min(2, digits.split('.')[1]?.length ?? 0)
  return `${displayDigits(digits, { decimals, sign })}${unit === '1' ? '' : ` ${unit}`}`
}

function numberAnswer(limit: Limit, value: PanelTestValue, facts: PanelFacts): MethodAnswer {
  const { sign } = facts
  const { verdict, sentence } = judge(limit, value, sign)
  const besides = value.each ? ` ${eachSentence(value.each, sign)}` : ''
  const outcome = {
    ...{ limitKey: limit.key, value: value.value, unit: value.unit, n: value.n, ...atOf(value, facts) },
    ...(value.each ? { said: eachSentence(value.each, sign) } : {}),
  }
  return {
    ...commonOf(limit, value, facts),
    verdict: endsOf(limit) === undefined ? 'no limit held' : verdict,
    said: `${verdict === 'undecided' ? `${valueWords(value.value, value.unit, sign)}. ${sentence}` : sentence}${besides}`,
    outcome,
    calculation: value.calculation,
    classes: null,
  }
}

/** What a method counts as passing decides, whether or not a number is held; what is declared is never judged. */
function classAnswer(limit: Limit, value: PanelClassValue, facts: PanelFacts): MethodAnswer {
  const verdict = limit.sense === 'declared' ? 'no limit held' : value.passes ? 'pass' : 'fail'
  const words = { pass: ', meets what is asked', fail: ', does not meet what is asked', 'no limit held': '' } as const
  return { ...commonOf(limit, value, facts), verdict, said: `${value.words}${words[verdict]}.`, classes: value.words }
}

/** Tests that are no replicates, with no limit that one of them would be held to: all of them in place of a value. */
function apartAnswer(limit: Limit, value: PanelValuesApart, facts: PanelFacts): MethodAnswer {
  const words = eachWords(value.each, facts.sign)
  return { ...commonOf(limit, value, facts), verdict: 'no limit held', said: `${words}.`, classes: words }
}

/** "149 s (12-3), 128 s (12-4)" */
function eachWords(points: readonly PanelTestPoint[], sign: PanelFacts['sign']): string {
  return points.map(({ value, unit, label }) => `${valueWords(value, unit, sign)} (${label})`).join(', ')
}

function eachSentence(points: readonly PanelTestPoint[], sign: PanelFacts['sign']): string {
  return `The tests are no replicates, and each has to meet the limit: ${eachWords(points, sign)}. The one nearest to failing is judged.`
}

function commonOf(limit: Limit, value: PanelTestValue | PanelClassValue | PanelValuesApart, facts: PanelFacts) {
  const { methodKey, emulsionPercent, n } = value
  return {
    limitKey: limit.key,
    name: facts.nameOf?.(methodKey) ?? methodKey,
    emulsionPercent,
    n,
    asked: facts.askedOf?.(methodKey, emulsionPercent) ?? null,
    ...atOf(value, facts),
  }
}

function atOf({ emulsionPercent }: { readonly emulsionPercent: string | null }, { sign }: PanelFacts): { at?: string } {
  return emulsionPercent === null ? {} : { at: `at ${displayDigits(emulsionPercent, { sign })} % emulsion` }
}
