import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import type { BatchComponent } from './batch-sheet.ts'
import type { Demand } from './demand.ts'

/**
 * What trial mixes, residue, grading and the other tests of a panel take beside the series, in g. Common practice, no
 * source: 8 kg of aggregate and 0.9 kg of emulsion for one design.
 */
export const otherTests = {
  takesG: { aggregate: '8000', emulsion: '900' } as Readonly<Partial<Record<BatchComponent, string>>>,
  source: 'common practice, no source',
} as const

/** Liquids that came by volume are counted at this density, g/mL. */
export const liquidDensity = { value: '1', source: 'common practice, no source' } as const

/** What is here of one component; null where it is not on record. */
export type Arrived = { readonly massG: string; readonly byVolume: boolean } | null

export type DemandRow = {
  readonly component: BatchComponent
  /** All in g at full precision. */
  readonly seriesG: string
  readonly otherG: string
  readonly neededG: string
  readonly arrivedG: string | null
  /** Counted from litres at the usual density of liquids. */
  readonly byVolume: boolean
  /** What is missing; "0" where enough came, null where the amount is not on record. */
  readonly shortG: string | null
}

const components = ['aggregate', 'emulsion', 'filler', 'additive', 'water'] as const

/** Whether what arrived suffices for the series and the other tests; aggregate counts whole, before anything is scalped. */
export function demandRows(demand: Demand, arrived: Readonly<Record<BatchComponent, Arrived>>): readonly DemandRow[] {
  const whole = demand.forms.reduce<Decimal>((sum, { wholeAggregateG }) => sum.plus(wholeAggregateG), decimal('0'))
  return components.map((component) => {
    const series = component === 'aggregate' ? whole : decimal(demand.totals[component])
    const other = decimal(otherTests.takesG[component] ?? '0')
    const needed = series.plus(other)
    const here = arrived[component]
    const short = here && needed.minus(here.massG)
    return {
      component,
      seriesG: plainDigits(series),
      otherG: plainDigits(other),
      neededG: plainDigits(needed),
      arrivedG: here?.massG ?? null,
      byVolume: here?.byVolume ?? false,
      shortG: short && (short.gt(0) ? plainDigits(short) : '0'),
    }
  })
}
