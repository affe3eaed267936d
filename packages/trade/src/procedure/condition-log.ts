import { decimal, plainDigits } from '../quantity/decimal.ts'
import type { EditionParameters, StepDeclaration } from './declaration.ts'

/** A value of an instrument's log: digits in one unit, ISO 8601. */
export type LoggedValue = { readonly at: string; readonly value: string }

/** What a step asks an oven or bath to hold. */
export type HeldCondition = {
  readonly target: string
  readonly tolerance: string
  readonly unit: string
  readonly low: string
  readonly high: string
}

/** A time out of limits; `ended` is false while no later value says that it is over. */
export type Excursion = {
  readonly from: string
  readonly until: string
  /** The value that lies farthest outside. */
  readonly peak: string
  readonly ended: boolean
}
export type LogGap = { readonly from: string; readonly until: string }

/** Longer than this without a value is a gap, in which nothing is known. Common practice, no source. */
export const gapMs = 2 * 3_600_000

/** The temperature that a stay holds by its edition; null where the step names none with a tolerance. */
export function heldCondition(step: StepDeclaration, parameters: EditionParameters): HeldCondition | null {
  for (const { targetParameter, toleranceParameter } of step.conditions) {
    const target = parameters[targetParameter]
    const tolerance = toleranceParameter === undefined ? undefined : parameters[toleranceParameter]
    if (target?.unit !== '°C' || tolerance?.unit !== '°C') continue
    return {
      target: target.value,
      tolerance: tolerance.value,
      unit: target.unit,
      low: plainDigits(decimal(target.value).minus(tolerance.value)),
      high: plainDigits(decimal(target.value).plus(tolerance.value)),
    }
  }
  return null
}

/** Whether a value lies outside; both limits belong to what is held. */
export function isOutside(value: string, { low, high }: Pick<HeldCondition, 'low' | 'high'>): boolean {
  return decimal(value).lt(low) || decimal(value).gt(high)
}

/**
 * The times out of limits in a log. One begins with the first value outside and ends with the first one inside again, or
 * with the last value before a gap: of what nobody measured, nothing is said.
 */
export function excursionsOf(
  values: readonly LoggedValue[],
  held: Pick<HeldCondition, 'low' | 'high'>,
): readonly Excursion[] {
  const found: { from: string; until: string; peak: string; ended: boolean }[] = []
  let open: (typeof found)[number] | undefined
  let before: LoggedValue | undefined
  for (const value of inOrder(values)) {
    if (open && before && timeOf(value) - timeOf(before) > gapMs) {
      open.ended = true
      open = undefined
    }
    const outside = isOutside(value.value, held)
    if (open) {
      open.until = value.at
      if (!outside) {
        open.ended = true
        open = undefined
      } else if (beyond(value.value, held).gt(beyond(open.peak, held))) open.peak = value.value
    } else if (outside) {
      open = { from: value.at, until: value.at, peak: value.value, ended: false }
      found.push(open)
    }
    before = value
  }
  return found
}

/** Where the log says nothing for longer than a gap, between two instants. */
export function gapsOf(values: readonly LoggedValue[], from: string, until: string): readonly LogGap[] {
  const times = inOrder(values).map(({ at }) => at)
  const inside = times.filter((at) => Date.parse(at) > Date.parse(from) && Date.parse(at) < Date.parse(until))
  const marks = [from, ...inside, until]
  return marks.slice(1).flatMap((at, index) => {
    const start = marks[index]!
    return Date.parse(at) - Date.parse(start) > gapMs ? [{ from: start, until: at }] : []
  })
}

/** Whether a value lies outside on the same side as one that was judged, and no farther: nothing that was not known. */
export function isNoFarther(value: string, judged: string, held: Pick<HeldCondition, 'low' | 'high'>): boolean {
  const isAbove = (one: string) => decimal(one).gt(held.high)
  return isAbove(value) === isAbove(judged) && beyond(value, held).lte(beyond(judged, held))
}

function beyond(value: string, { low, high }: Pick<HeldCondition, 'low' | 'high'>) {
  return decimal(value).gt(high) ? decimal(value).minus(high) : decimal(low).minus(value)
}

function inOrder(values: readonly LoggedValue[]): readonly LoggedValue[] {
  return values.toSorted((one, other) => timeOf(one) - timeOf(other))
}

function timeOf({ at }: LoggedValue): number {
  return Date.parse(at)
}
