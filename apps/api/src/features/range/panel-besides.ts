import type { PanelResult } from '@curebook/contract/panel-results'
import type { PanelRow } from '@curebook/contract/range'
import { decimal } from '@curebook/trade/quantity/decimal'
import { type DecimalSign, displayDigits } from '@curebook/trade/quantity/display'
import { judge } from '@curebook/trade/specification/judge'
import { endsOf } from '@curebook/trade/specification/limit-decision'
import type { PanelOutcome } from '@curebook/trade/specification/panel'
import type { Limit } from '@curebook/trade/specification/specification'
import type { MethodAnswer } from './panel-answers.ts'

/** What else was found of a property, beside what speaks for it. */
type Beside =
  | Pick<MethodAnswer, 'name' | 'n' | 'verdict' | 'said'>
  | { readonly verdict: PanelRow['verdict']; readonly entered: string }

/** A value that was entered for what was also found here, judged by itself; of another content it is told and not judged. */
export function besideOf(
  limit: Limit,
  { typed, unit, method, atEmulsionPercent }: PanelResult,
  outcome: PanelOutcome | undefined,
  { at, sign }: { readonly at: string | null; readonly sign: DecimalSign },
): Beside {
  const told = `Entered beside it: ${typed} ${unit}, ${method}`
  if (atEmulsionPercent !== null && at !== null && !decimal(atEmulsionPercent).eq(at))
    return { verdict: 'undecided', entered: `${told}, at ${displayDigits(atEmulsionPercent, { sign })} % emulsion.` }
  if (outcome === undefined || endsOf(limit) === undefined) return { verdict: 'no limit held', entered: `${told}.` }
  const { verdict, sentence } = judge(limit, outcome, sign)
  return { verdict, entered: `${told}: ${sentence}` }
}

/**
 * A row with all that was found beside it. A test by another method that decides otherwise, or an entered value that fails
 * beside a passing one, leaves it undecided: nobody passes over either in silence.
 */
export function withBesides(row: PanelRow, own: MethodAnswer | undefined, besides: readonly Beside[]): PanelRow {
  if (besides.length === 0 || (row.verdict === 'not tested' && own === undefined)) return row
  const isOpposed = besides.some((one) =>
    row.verdict === 'pass'
      ? one.verdict === 'fail'
      : row.verdict === 'fail' && one.verdict === 'pass' && !('entered' in one),
  )
  const hasMethods = besides.some((one) => !('entered' in one))
  const sentence = [
    hasMethods && own ? `By ${own.name}: ${row.sentence}` : row.sentence,
    ...besides.map((one) =>
      'entered' in one ? one.entered : `By ${one.name}${one.n > 1 ? `, n = ${one.n}` : ''}: ${one.said}`,
    ),
    ...(isOpposed ? ['One meets the limit and the other does not: undecided.'] : []),
  ].join(' ')
  return isOpposed ? { ...row, verdict: 'undecided', margin: null, sentence } : { ...row, sentence }
}
