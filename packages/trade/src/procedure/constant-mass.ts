import { decimal, plainDigits } from '../quantity/decimal.ts'
import { durationOf } from './windows.ts'
import type { EditionParameters } from './declaration.ts'

/** A weighing of a check specimen, warm; grams as digits. */
export type WarmWeighing = { readonly at: string; readonly value: string }

/** What two weighings of a check specimen say: `one` is not enough, or not far enough apart. */
export type MassState = {
  readonly state: 'one' | 'changing' | 'constant'
  /** Between the last weighing and the latest one early enough, without sign, g. */
  readonly change: string | null
  readonly from: WarmWeighing | null
  readonly to: WarmWeighing | null
}

export type MassRule = { readonly limit: string; readonly intervalMs: number; readonly source: string }

/** The rule of an edition; null where it asks for no constant mass. */
export function massRuleOf(parameters: EditionParameters): MassRule | null {
  const limit = parameters['constant-mass']
  if (!limit || !parameters['constant-mass-interval']) return null
  return { limit: limit.value, intervalMs: durationOf(parameters, 'constant-mass-interval'), source: limit.source }
}

/**
 * Whether a check specimen has come to constant mass: its last weighing against the latest one at least the interval before
 * (default of the editions: 0.2 g for discs, 0.1 g for strips, an hour apart; common practice, no source).
 */
export function massState(weighings: readonly WarmWeighing[], { limit, intervalMs }: MassRule): MassState {
  const ordered = weighings.toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at))
  const last = ordered.at(-1)
  const earlier = last && ordered.filter(({ at }) => Date.parse(at) <= Date.parse(last.at) - intervalMs).at(-1)
  if (!last || !earlier) return { state: 'one', change: null, from: null, to: last ?? null }
  const change = decimal(last.value).minus(earlier.value).abs()
  return {
    state: change.lte(limit) ? 'constant' : 'changing',
    change: plainDigits(change),
    from: earlier,
    to: last,
  }
}
