import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import {
  contentOf,
  type Estimate,
  type EstimateInput,
  type EstimateText,
  onDryAggregate,
  takePassing,
  takeResidue,
} from './estimate.ts'

const source = 'NAVEDTRA 14070, page 17-22'
const meanings = 'from memory, unverified'

/** Emulsion for each per cent of a fraction. Source: NAVEDTRA 14070, page 17-22; which fractions: from memory, unverified. */
export const fractionFactors = [
  { symbol: 'A', name: 'Retained on 2.36 mm (No. 8)', value: '0.05' },
  { symbol: 'B', name: 'Passing 2.36 mm, retained on 0.075 mm (No. 200)', value: '0.1' },
  { symbol: 'C', name: 'Passing 0.075 mm (No. 200)', value: '0.5' },
] as const

export const fractionsText: EstimateText = {
  key: 'emulsion-by-fractions',
  name: 'Three fractions of the aggregate',
  source: `${source}; meaning of A, B and C: ${meanings}`,
  certainty: 'from memory',
}

/**
 * P = 0.05 A + 0.1 B + 0.5 C: emulsion for a cold mix from three fractions of the aggregate alone. With a residue, the
 * binder in it.
 * @throws MethodInputError `missing-setup` for a sieve that is not there; `not-positive`, `inconsistent` for a residue
 */
export function emulsionByFractions(input: EstimateInput): Estimate {
  const emulsion = createCalculation()
  writeEmulsion(emulsion, input)
  const contents = [contentOf('emulsion', emulsion.calculation())]
  if (input.residue) {
    const work = createCalculation()
    writeEmulsion(work, input)
    takeResidue(work, input.residue)
    const text = { unit: onDryAggregate, source: 'share of the emulsion, arithmetic' }
    work.product({ symbol: 'P1', name: 'Emulsion × residue', ...text }, 'P', 'r')
    work.quotient({ symbol: 'AR', name: 'Residual binder', ...text }, 'P1', '100')
    contents.unshift(contentOf('residual-binder', work.calculation()))
  }
  return {
    ...fractionsText,
    contents,
    remarks: [
      'Meant for cold emulsion mixes where nothing but sieves is at hand: it knows neither gravity nor absorption. Aggregate that absorbs takes more.',
      ...(input.residue ? [] : ['Without a residue there is no residual binder.']),
    ],
  }
}

/** Up to line `P`, the emulsion in % of dry aggregate. */
function writeEmulsion(work: CalculationBuilder, input: EstimateInput) {
  // Which sieves: from memory, unverified.
  takePassing(work, input, ['2.36', '0.075'])
  const [a, b, c] = fractionFactors
  const fraction = ({ symbol, name }: (typeof fractionFactors)[number]) => ({
    symbol,
    name,
    unit: '%',
    source: meanings,
  })
  work.difference(fraction(a), '100', 'p1')
  work.difference(fraction(b), 'p1', 'p2')
  work.sum(fraction(c), 'p2', '0')
  const terms = fractionFactors.map(({ symbol, value }) => {
    const each = { symbol: `k${symbol}`, name: `Emulsion for each per cent of ${symbol}`, unit: onDryAggregate, source }
    work.input(each, value, { kind: 'constant' })
    const text = { symbol: `E${symbol}`, name: `Emulsion for ${symbol}`, unit: onDryAggregate, source }
    work.product(text, symbol, `k${symbol}`)
    return `E${symbol}`
  })
  work.sum({ symbol: 'P', name: 'Emulsion', unit: onDryAggregate, source }, ...terms)
}
