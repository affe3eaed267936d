import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedResult,
  EvaluationSetup,
  MethodDeclaration,
  ObservedReading,
  ReadingDeclaration,
  StepDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas, readingAt, resultOf, setupInput } from '../procedure/evaluation.ts'
import { decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { cautions } from './cautions.ts'
import { practised, practiceSource, published, remembered } from './edition-parameter.ts'

const tb100 = (value: string, unit: string, label: string) => remembered('ISSA TB-100', value, unit, label)

const edition: BuiltInEdition = {
  key: 'batch-practice',
  designation: 'Batching on dry aggregate',
  year: 'common practice',
  effectiveFrom: '2010-01-01',
  parameters: {
    'disc-aggregate': tb100('800', 'g', 'Dry aggregate of one batch for an abrasion disc'),
    'disc-largest-particle': tb100('4.75', 'mm', 'Fraction of the aggregate used for an abrasion disc: passing'),
    'strip-aggregate': published(
      'ISSA TB-109 (2018)',
      undefined,
      '300',
      'g',
      'Dry aggregate of one batch for a strip, 6.4 mm mould',
    ),
    'strip-aggregate-thick': published(
      'ISSA TB-147 (2005)',
      undefined,
      '500',
      'g',
      'Dry aggregate of one batch for a strip, 12.7 mm mould',
    ),
    'aggregate-tolerance': practised('1', '%', 'Aggregate off its target, asked about beyond'),
    'filler-tolerance': practised('0.1', 'g', 'Mineral filler off its target, asked about beyond'),
    'water-tolerance': practised('1', '%', 'Added water off its target, asked about beyond'),
    'additive-tolerance': practised('0.1', 'g', 'Additive off its target, asked about beyond'),
    'emulsion-tolerance': practised('1', '%', 'Emulsion off its target, asked about beyond'),
    'mixing-slow-set-least': tb100('60', 's', 'Mixing of a slow-set system after the emulsion, at least'),
    'mixing-slow-set': tb100('180', 's', 'Longest mixing of a slow-set system, all in all'),
    'mixing-quick-set': practised('30', 's', 'Mixing of a quick-set system after the emulsion'),
  },
}

const pour = (
  component: string,
  label: string,
  resolution: string,
  to: string,
  toleranceParameter: string,
): ReadingDeclaration => ({
  key: component,
  label,
  kind: 'number',
  unit: 'g',
  resolution,
  instrument: 'balance',
  plausible: { from: '0', to, source: practiceSource },
  target: { component, toleranceParameter },
})

const steps: readonly StepDeclaration[] = [
  {
    key: 'weigh-components',
    title: 'Weigh the components',
    instruction:
      'Weigh one component at a time, the emulsion last and stirred just before. What the balance shows is what counts: a pour off target is kept and used as weighed.',
    cautions: [cautions.dust, cautions.filler, cautions.additive, cautions.emulsion, cautions.lifting],
    events: [],
    readings: [
      pour('aggregate', 'Aggregate, as it is (moist or dry)', '0.1', '2500', 'aggregate-tolerance'),
      pour('filler', 'Mineral filler', '0.01', '100', 'filler-tolerance'),
      pour('additive', 'Set-control additive', '0.01', '50', 'additive-tolerance'),
      pour('water', 'Added water', '0.1', '500', 'water-tolerance'),
      pour('emulsion', 'Emulsion', '0.1', '500', 'emulsion-tolerance'),
    ],
    equipment: ['balance'],
    conditions: [],
  },
  {
    key: 'mix',
    title: 'Mix and cast',
    instruction:
      'Mix aggregate and filler dry, then with water and additive until evenly wet, then add the emulsion and stir until coated. A quick-set mix is stirred briefly and cast at once. Confirm when the emulsion goes in.',
    cautions: [cautions.emulsion, cautions.filler],
    events: ['start'],
    eventLabels: { start: 'Emulsion in' },
    readings: [
      {
        key: 'mixing-seconds',
        label: 'Stirred for',
        kind: 'number',
        unit: 's',
        resolution: '1',
        plausible: { from: '10', to: '180', source: practiceSource },
        optional: true,
        instrument: 'timer',
      },
      {
        key: 'broke-in-bowl',
        label: 'Broke in the bowl',
        kind: 'choice',
        choices: [
          { key: 'no', label: 'No' },
          { key: 'yes', label: 'Yes' },
        ],
        optional: true,
      },
    ],
    equipment: ['timer'],
    conditions: [
      { label: 'Stirring, quick-set system', targetParameter: 'mixing-quick-set' },
      { label: 'Stirring after the emulsion, slow-set system, at least', targetParameter: 'mixing-slow-set-least' },
      { label: 'Stirring, slow-set system, at most', targetParameter: 'mixing-slow-set' },
    ],
  },
]

const onDryAggregate = '% of dry aggregate'
const arithmetic = 'share of dry aggregate, arithmetic'

const contents = {
  emulsion: { key: 'emulsion-content', label: 'Emulsion', symbol: 'E' },
  filler: { key: 'filler-content', label: 'Mineral filler', symbol: 'F' },
  water: { key: 'water-content', label: 'Added water', symbol: 'W' },
  additive: { key: 'additive-content', label: 'Set-control additive', symbol: 'A' },
} as const
type Component = keyof typeof contents

/** Dry aggregate as weighed ÷ (1 + moisture ÷ 100); line `dry` of the calculation. */
function dryAggregate(work: CalculationBuilder, readings: readonly ObservedReading[], setup: EvaluationSetup) {
  const aggregate = readingAt(readings, 'weigh-components', 'aggregate')
  const moisture = setupInput(setup, 'moisture', 'The moisture of the aggregate')
  if (decimal(aggregate.value).lte(0))
    throw new MethodInputError('not-positive', 'The aggregate must weigh more than 0 g.', {
      aggregate: `${aggregate.value} g`,
    })
  if (decimal(moisture.value).lt(0))
    throw new MethodInputError('not-positive', 'The moisture of the aggregate cannot be less than 0 %.', {
      moisture: `${moisture.value} %`,
    })
  takeReading(work, 'M', 'Aggregate as weighed', aggregate)
  work.input({ symbol: 'w', name: 'Moisture of the aggregate', unit: '%', source: moisture.source }, moisture.value, {
    kind: 'result',
    id: moisture.id,
    key: 'moisture',
  })
  const one = { unit: '1', source: arithmetic }
  work.quotient({ symbol: 'w1', name: 'Moisture as a fraction', ...one }, 'w', '100')
  work.sum({ symbol: 'f', name: 'Moist over dry', ...one }, '1', 'w1')
  work.quotient({ symbol: 'dry', name: 'Dry aggregate', unit: 'g', source: arithmetic }, 'M', 'f')
}

function takeReading(work: CalculationBuilder, symbol: string, name: string, reading: ObservedReading) {
  if (decimal(reading.value).lt(0))
    throw new MethodInputError('not-positive', `${name} cannot be less than 0 g.`, {
      [reading.key]: `${reading.value} g`,
    })
  work.input({ symbol, name, unit: 'g', source: 'as weighed' }, reading.value, {
    kind: 'reading',
    id: reading.id,
    key: reading.key,
  })
}

function content(component: Component, readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  const { key, label, symbol } = contents[component]
  const work = createCalculation()
  dryAggregate(work, readings, setup)
  takeReading(work, 'm', `${label} as weighed`, readingAt(readings, 'weigh-components', component))
  work.product({ symbol: 'h', name: 'A hundred times its mass', unit: 'g', source: arithmetic }, 'm', '100')
  work.quotient({ symbol, name: `${label} content`, unit: onDryAggregate, source: arithmetic }, 'h', 'dry')
  return resultOf(work.calculation(), { key, label: contentLabel(label), displayDecimals: 2 })
}

const contentLabel = (component: string) => `${component} content, as weighed`
const residualLabel = (basis: Basis) => `Residual binder, ${basis}`

type Basis = '% of dry aggregate' | '% of dry aggregate and filler' | '% of total dry mix'

/**
 * Residual binder as emulsion × residue, over each of the three denominators in use. The total dry mix is dry aggregate,
 * filler and residual binder; an additive counts as water.
 */
function residualBinder(basis: Basis, readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  const work = createCalculation()
  const residue = setupInput(setup, 'residue', 'The residue of the emulsion')
  if (decimal(residue.value).lte(0) || decimal(residue.value).gt(100))
    throw new MethodInputError('inconsistent', 'The residue of an emulsion lies between 0 and 100 %.', {
      residue: `${residue.value} %`,
    })
  dryAggregate(work, readings, setup)
  takeReading(work, 'e', 'Emulsion as weighed', readingAt(readings, 'weigh-components', 'emulsion'))
  work.input({ symbol: 'r', name: 'Residue of the emulsion', unit: '%', source: residue.source }, residue.value, {
    kind: 'result',
    id: residue.id,
    key: 'residue',
  })
  // Mass × per cent is a hundredfold of the binder's mass, which is just what a share in per cent needs.
  work.product({ symbol: 'p', name: 'A hundred times the binder', unit: 'g', source: arithmetic }, 'e', 'r')
  let denominator = 'dry'
  if (basis !== '% of dry aggregate') {
    takeReading(work, 'filler', 'Mineral filler as weighed', readingAt(readings, 'weigh-components', 'filler'))
    work.sum({ symbol: 'solid', name: 'Dry aggregate and filler', unit: 'g', source: arithmetic }, 'dry', 'filler')
    denominator = 'solid'
  }
  if (basis === '% of total dry mix') {
    work.quotient({ symbol: 'b', name: 'Residual binder', unit: 'g', source: arithmetic }, 'p', '100')
    work.sum({ symbol: 'total', name: 'Total dry mix', unit: 'g', source: arithmetic }, 'solid', 'b')
    denominator = 'total'
  }
  const label = residualLabel(basis)
  work.quotient({ symbol: 'P', name: label, unit: basis, source: arithmetic }, 'p', denominator)
  return resultOf(work.calculation(), { key: 'residual-binder', label, displayDecimals: 2 })
}

const bases: readonly Basis[] = ['% of dry aggregate', '% of dry aggregate and filler', '% of total dry mix']

/**
 * One batch: what was poured, in any order, and the contents that follow from it. Needs `moisture` and, for the residual
 * binder, `residue` among the entered values, both in %.
 */
export const batch: MethodDeclaration = {
  key: 'batch',
  name: 'Batch, as weighed',
  shortName: 'Batch',
  answers: [],
  place: 'series',
  madeFrom: 'materials',
  form: 'batch',
  computation: 1,
  steps,
  windows: [],
  editions: [edition],
  resultOfRecord: 'residual-binder',
  results: [
    ...Object.values(contents).map(({ key, label }) => ({ key, label: contentLabel(label), displayDecimals: 2 })),
    ...bases.map((unit) => ({ key: 'residual-binder', label: residualLabel(unit), unit, displayDecimals: 2 })),
  ],
  evaluate: (readings, setup) =>
    evaluateFormulas(steps, readings, [
      ...(Object.keys(contents) as Component[]).map((component) => ({
        keys: [contents[component].key],
        compute: () => [content(component, readings, setup)],
      })),
      { keys: ['residual-binder'], compute: () => bases.map((basis) => residualBinder(basis, readings, setup)) },
    ]),
}
