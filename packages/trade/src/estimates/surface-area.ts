import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import {
  contentOf,
  type Estimate,
  type EstimateInput,
  type EstimateText,
  onDryAggregate,
  takeGiven,
  takePassing,
  takeResidue,
} from './estimate.ts'

const document = 'UFC 3-250-03 (2001), appendix C'
const table = `${document}, table C-1`

/** Surface area for each per cent that passes a sieve, in both units as printed. Source: UFC 3-250-03 (2001), table C-1. */
export const surfaceAreaFactors = [
  { size: '9.5', name: '3/8 in', us: '0.02', si: '0.00409' },
  { size: '4.75', name: 'No. 4', us: '0.02', si: '0.00409' },
  { size: '2.36', name: 'No. 8', us: '0.04', si: '0.00819' },
  { size: '1.18', name: 'No. 16', us: '0.08', si: '0.01639' },
  { size: '0.600', name: 'No. 30', us: '0.14', si: '0.02867' },
  { size: '0.300', name: 'No. 50', us: '0.30', si: '0.06144' },
  { size: '0.150', name: 'No. 100', us: '0.60', si: '0.12289' },
  { size: '0.075', name: 'No. 200', us: '1.60', si: '0.32771' },
] as const

/** Numbers of the method beside its table. */
export const surfaceAreaNumbers = {
  /** Specific gravity for which the factors are printed. */
  referenceGravity: { value: '2.65', source: `${document}, C-2` },
  /** Binder of a film, % of dry aggregate, for 1 ft²/lb, 1 µm and a specific gravity of 1. */
  us: { value: '0.02047', source: `${document}, equation E-3` },
  /**
   * The same for 1 m²/kg: 0.02047 ÷ 0.204816. The document prints its metric constant ten times too large; that 1 m²/kg
   * with a film of 1 µm holds 1 mL of binder a kilogram, 0.1 %, shows which of the two is right.
   */
  si: {
    value: '0.099941',
    source: `${document}, equation E-3, its decimal point put right: as printed it is ten times the US one`,
  },
  film: { value: '8', source: `${document}, C-1; ISSA TB-118 (2005), clause 1.3` },
  binderGravity: { value: '1.0', source: `${document}, C-2: where it is not known, the error is small` },
  /** Binder for each per cent of cement or lime that the gradation does not hold. */
  filler: { value: '0.6', source: `${document}, C-3` },
} as const

const systems = {
  us: { name: 'Surface area, US factors', area: 'ft²/lb', factor: 'us' },
  si: { name: 'Surface area, metric factors', area: 'm²/kg', factor: 'si' },
} as const

export const surfaceAreaText = (system: 'us' | 'si'): EstimateText => ({
  key: `surface-area-${system}`,
  name: systems[system].name,
  source: `${document}; ISSA TB-118 (2005), from Army instruction report S-75-1`,
  certainty: 'published',
})

/**
 * The surface-area method: the binder that a film on all of the aggregate takes, with what the aggregate absorbs, and what
 * cement or lime that is not in the gradation adds. With a residue, the emulsion that holds it.
 * @throws MethodInputError `missing-setup` for a sieve, gravity or absorption that is not there; `not-positive`, `inconsistent`
 */
export function surfaceAreaEstimate(input: EstimateInput, system: 'us' | 'si'): Estimate {
  const binder = createCalculation()
  writeBinder(binder, input, system)
  const contents = [contentOf('residual-binder', binder.calculation())]
  if (input.residue) {
    const work = createCalculation()
    writeBinder(work, input, system)
    takeResidue(work, input.residue)
    const text = (symbol: string, name: string) => ({ symbol, name, unit: onDryAggregate, source: `${document}, C-2` })
    work.product(text('AR1', 'A hundred times the binder'), 'AR', '100')
    work.quotient(text('E', 'Emulsion'), 'AR1', 'r')
    contents.push(contentOf('emulsion', work.calculation()))
  }
  return {
    ...surfaceAreaText(system),
    contents,
    remarks: [
      'TB-118 says of itself that it does not hold everywhere: 8 µm are usually too thick for heavy traffic, and gradations with many fines may be over-filled.',
      ...(input.binderGravity
        ? []
        : ['The specific gravity of the binder is not given and taken as 1.0, as the method says.']),
      ...(input.residue ? [] : ['Without a residue there is no emulsion content.']),
    ],
  }
}

/** Up to line `AR`, the total binder in % of dry aggregate. */
function writeBinder(work: CalculationBuilder, input: EstimateInput, system: 'us' | 'si') {
  const { area, factor } = systems[system]
  takePassing(
    work,
    input,
    surfaceAreaFactors.map(({ size }) => size),
  )
  const parts = surfaceAreaFactors.map((row, index) => {
    const n = index + 1
    const each = `${area} for each %`
    published(work, `f${n}`, `Factor of ${row.size} mm (${row.name})`, each, { value: row[factor], source: table })
    work.product({ symbol: `a${n}`, name: `Surface, ${row.size} mm`, unit: area, source: table }, `p${n}`, `f${n}`)
    return `a${n}`
  })
  const text = (symbol: string, name: string, unit: string, clause = 'C-2') => ({
    symbol,
    name,
    unit,
    source: `${document}, ${clause}`,
  })
  work.sum(text('SA', 'Surface area', area), ...parts)
  published(work, 'G0', 'Specific gravity of the factors', '1', surfaceAreaNumbers.referenceGravity)
  takeGiven(
    work,
    { symbol: 'ASG', name: 'The apparent specific gravity of the aggregate', unit: '1' },
    input.apparentGravity,
  )
  work.product(text('SA1', 'Surface area × 2.65', area), 'SA', 'G0')
  work.quotient(text('CSA', 'Surface area, corrected', area), 'SA1', 'ASG')
  takeGiven(work, { symbol: 't', name: 'The film of binder', unit: 'µm' }, input.filmMicrons ?? surfaceAreaNumbers.film)
  published(work, 'k', `Binder for 1 ${area} and 1 µm`, onDryAggregate, surfaceAreaNumbers[system])
  takeGiven(
    work,
    { symbol: 'SGA', name: 'The specific gravity of the binder', unit: '1' },
    input.binderGravity ?? surfaceAreaNumbers.binderGravity,
  )
  work.product(text('SAA', 'Binder of the film', onDryAggregate, 'equation E-3'), 'CSA', 't', 'k', 'SGA')
  takeGiven(
    work,
    { symbol: 'KA', name: 'The absorption (kerosene retained, ASTM D5148)', unit: onDryAggregate },
    input.absorption,
    'zero',
  )
  const sum = (...terms: readonly string[]) =>
    work.sum(text('AR', 'Total binder', onDryAggregate, 'equation E-2'), ...terms)
  if (!input.extraFiller) return sum('SAA', 'KA')
  const filler = { symbol: 'c', name: 'Cement or lime that is not in the gradation', unit: onDryAggregate }
  takeGiven(work, filler, input.extraFiller, 'zero')
  published(work, 'kc', 'Binder for each per cent of it', onDryAggregate, surfaceAreaNumbers.filler)
  work.product(text('FA', 'Binder for it', onDryAggregate, 'C-3'), 'c', 'kc')
  return sum('SAA', 'KA', 'FA')
}

function published(
  work: CalculationBuilder,
  symbol: string,
  name: string,
  unit: string,
  number: { readonly value: string; readonly source: string },
) {
  work.input({ symbol, name, unit, source: number.source }, number.value, { kind: 'constant' })
}
