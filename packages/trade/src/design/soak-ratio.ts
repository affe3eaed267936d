import { decimal, plainDigits } from '../quantity/decimal.ts'
import type { Curve } from './curve.ts'

/**
 * How many times the loss after one hour that after six days usually is at one content. Less is no loss that grows in water,
 * more is a mix that water harms: either is a finding, never a limit. Common practice, no source.
 */
export const usualSoakRatio = { from: '1', to: '3', source: 'common practice, no source' } as const

/** A content whose two soaks stand in no usual relation. */
export type UnusualSoakRatio = {
  /** The curve of the six days. */
  readonly curve: Curve
  readonly emulsionPercent: string
  /** Mean after six days ÷ mean after one hour, full precision. */
  readonly ratio: string
  readonly side: 'less' | 'more'
}

/** Contents tested after both soaks whose ratio lies outside what is usual; on an end is usual. */
export function unusualSoakRatios(curves: readonly Curve[]): readonly UnusualSoakRatio[] {
  return curves
    .filter(({ soak }) => soak === '6-day')
    .flatMap((long) => {
      const short = curves.find(
        ({ property, unit, soak }) => soak === '1-hour' && property === long.property && unit === long.unit,
      )
      return short ? unusualOf(short, long) : []
    })
}

function unusualOf(short: Curve, long: Curve): readonly UnusualSoakRatio[] {
  return long.means.flatMap(({ mixId, emulsionPercent, y }) => {
    const hour = short.means.find((mean) => mean.mixId === mixId)
    if (!hour || decimal(hour.y).lte(0)) return []
    const ratio = decimal(y).div(hour.y)
    const [less, more] = [ratio.lt(usualSoakRatio.from), ratio.gt(usualSoakRatio.to)]
    if (!less && !more) return []
    return [{ curve: long, emulsionPercent, ratio: plainDigits(ratio), side: less ? 'less' : 'more' }]
  })
}
