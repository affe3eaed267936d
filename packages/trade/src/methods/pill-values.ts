import type { CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { EvaluationSetup, ObservedReading } from '../procedure/declaration.ts'
import { parameterOf, readingAt } from '../procedure/evaluation.ts'
import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { round } from '../quantity/rounding.ts'
import { pills } from './classification-compatibility-steps.ts'
import { takePositive, takeReading, takeShare } from './working-inputs.ts'

export type PillValueKey = 'absorption' | 'abrasion' | 'integrity' | 'adhesion'

const source = 'ISSA TB-144, from memory, unverified'
const weighings = {
  D: { step: 'weigh-dry', words: 'dry' },
  S: { step: 'weigh-wet', words: 'soaked' },
  T: { step: 'weigh-tumbled', words: 'tumbled' },
  B: { step: 'weigh-boiled', words: 'largest piece after boiling' },
} as const
type Weighing = keyof typeof weighings

/** The weighings of a set in one working: each is written down once, when it is first asked for. */
export type MeasuredPills = {
  readonly work: CalculationBuilder
  readonly readings: readonly ObservedReading[]
  readonly setup: EvaluationSetup
  /** Mass in g of one pill; its symbol is the letter with the pill's number. */
  readonly mass: (weighing: Weighing, pill: number) => Decimal
}

/** @throws MethodInputError from `mass`: `not-positive` for a mass of nothing, but for what boiling left */
export function measuredPills(
  work: CalculationBuilder,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): MeasuredPills {
  const taken = new Map<string, Decimal>()
  const mass = (weighing: Weighing, pill: number): Decimal => {
    const symbol = `${weighing}${pill}`
    const known = taken.get(symbol)
    if (known) return known
    const { step, words } = weighings[weighing]
    const reading = readingAt(readings, step, 'mass', pill)
    const text = { symbol, name: `Pill ${pill}, ${words}`, unit: 'g', source: 'as weighed' } as const
    const nothingLeft = weighing === 'B' && decimal(reading.value).isZero()
    const value = nothingLeft ? takeReading(work, text, reading) : takePositive(work, text, reading)
    taken.set(symbol, value)
    return value
  }
  return { work, readings, setup, mass }
}

/**
 * The mean of four pills, with its working:
 * - absorption = 100 × (soaked − dry) ÷ dry, %
 * - abrasion = soaked − tumbled, surface dry, g
 * - integrity = 100 × largest piece after boiling ÷ tumbled, %
 * - adhesion = surface still coated, %
 *
 * @throws MethodInputError `loss` where water can only add, `gain` where only a loss can be, `not-positive`, `inconsistent`
 */
export const pillValues: Readonly<Record<PillValueKey, (measured: MeasuredPills, label: string) => Decimal>> = {
  absorption: (measured, label) =>
    meanOf(measured, { symbol: 'A', unit: '%', label }, (pill) => {
      const taken = change(measured, 'W', ['S', 'D'], pill)
      if (taken.lt(0)) throw wrongWay('loss', pill, taken, 'crumbled in the water, or not this pill')
      return share(measured, { symbol: `A${pill}`, name: `Absorption of pill ${pill}` }, `W${pill}`, `D${pill}`)
    }),
  abrasion: (measured, label) =>
    meanOf(measured, { symbol: 'L', unit: 'g', label }, (pill) => {
      const lost = change(measured, 'L', ['S', 'T'], pill)
      if (lost.lt(0)) throw wrongWay('gain', pill, lost, 'wetter than before, or not this pill')
      return lost
    }),
  integrity: (measured, label) =>
    meanOf(measured, { symbol: 'I', unit: '%', label }, (pill) => {
      measured.mass('B', pill)
      measured.mass('T', pill)
      const kept = share(measured, { symbol: `I${pill}`, name: `Integrity of pill ${pill}` }, `B${pill}`, `T${pill}`)
      const most = decimal(100).plus(parameterOf(measured.setup, 'integrity-over-most').value)
      if (kept.lte(most)) return kept
      const shown = `${round(plainDigits(kept), 1, 'half-even')} %`
      throw new MethodInputError(
        'gain',
        `Pill ${pill} holds ${shown} of its mass after boiling: still wet outside, or not this pill? Blot it and weigh again.`,
        { integrity: shown },
      )
    }),
  adhesion: (measured, label) =>
    meanOf(measured, { symbol: 'K', unit: '%', label }, (pill) => {
      const reading = readingAt(measured.readings, 'look', 'coated', pill)
      const name = `Surface still coated, pill ${pill}`
      return takeShare(measured.work, { symbol: `K${pill}`, name, unit: '%', source: 'as seen' }, reading)
    }),
}

type MeanText = { readonly symbol: string; readonly unit: string; readonly label: string }

function meanOf({ work }: MeasuredPills, { symbol, unit, label }: MeanText, each: (pill: number) => Decimal): Decimal {
  for (const pill of pills) each(pill)
  return work.mean({ symbol, name: label, unit, source }, ...pills.map((pill) => `${symbol}${pill}`))
}

const changes = { W: 'Water taken up by pill', L: 'Abrasion loss of pill' } as const

function change(
  { work, mass }: MeasuredPills,
  symbol: keyof typeof changes,
  [from, subtract]: readonly [Weighing, Weighing],
  pill: number,
): Decimal {
  mass(from, pill)
  mass(subtract, pill)
  const text = { symbol: `${symbol}${pill}`, name: `${changes[symbol]} ${pill}`, unit: 'g', source }
  return work.difference(text, `${from}${pill}`, `${subtract}${pill}`)
}

function share(
  { work }: MeasuredPills,
  { symbol, name }: { readonly symbol: string; readonly name: string },
  part: string,
  whole: string,
): Decimal {
  work.product({ symbol: `${symbol}h`, name: 'A hundred times that', unit: 'g', source }, part, '100')
  return work.quotient({ symbol, name, unit: '%', source }, `${symbol}h`, whole)
}

function wrongWay(code: 'gain' | 'loss', pill: number, difference: Decimal, why: string): MethodInputError {
  const amount = `${plainDigits(difference.abs())} g`
  const word = code === 'gain' ? 'Gain' : 'Loss'
  return new MethodInputError(code, `${word} of ${amount} at pill ${pill}: ${why}? Look and weigh again.`, {
    [code]: amount,
  })
}
