import type { RangeEnd, RangeView } from '@curebook/contract/range'
import type { RangeEnd as TradeRangeEnd } from '@curebook/trade/design/acceptable-range'
import { recommendationProblems } from '@curebook/trade/design/recommendation'
import { residualOfEmulsion } from '@curebook/trade/design/residual-binder'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'

export type ContentEcho = {
  /** Residual binder of the content typed, % of dry aggregate, full digits. */
  readonly residual: string
  /** With the tolerance to either side; null while none is typed. */
  readonly withTolerance: { readonly from: string; readonly to: string } | null
  /** What does not stand in the way and is the engineer's to weigh: a content outside the acceptable range, for example. */
  readonly remarks: readonly string[]
}

/** What a typed emulsion content means in residual binder, while it is being typed; null until it is a number. */
export function contentEcho(
  typed: { readonly emulsion: string; readonly tolerance: string },
  view: Pick<RangeView, 'residue' | 'minimum' | 'maximum' | 'testedSpan' | 'band' | 'flags'>,
  sign: DecimalSign,
): ContentEcho | null {
  const emulsion = readTypedNumber(typed.emulsion, { unit: '%' })
  const tolerance = readTypedNumber(typed.tolerance, { unit: '%' })
  if (!emulsion.ok || view.residue === null) return null
  const residual = residualOfEmulsion(emulsion.value, view.residue.value)
  const problems = recommendationProblems(
    {
      emulsionPercent: emulsion.value,
      residuePercent: view.residue.value,
      ...(tolerance.ok ? { toleranceResidualPercent: tolerance.value } : {}),
    },
    {
      ends: { minimum: endOf(view.minimum), maximum: endOf(view.maximum) },
      outcome: view.flags.some(({ key }) => key === 'no-range') ? 'no-range' : 'open',
    },
    view.testedSpan && { ...view.testedSpan, emulsionPercents: [] },
    view.band,
    sign,
  )
  return {
    residual,
    withTolerance: tolerance.ok
      ? {
          from: plainDigits(decimal(residual).minus(tolerance.value)),
          to: plainDigits(decimal(residual).plus(tolerance.value)),
        }
      : null,
    remarks: problems.filter(({ weight }) => weight === 'say').map(({ sentence }) => sentence),
  }
}

function endOf({ kind, residualPercent, setBy, sentence }: RangeEnd): TradeRangeEnd {
  return { kind, setBy: { words: setBy }, sentence, ...(residualPercent === null ? {} : { value: residualPercent }) }
}
