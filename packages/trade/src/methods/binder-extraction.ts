import type { CalculationBuilder } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  EditionParameters,
  MethodDeclaration,
  ObservedReading,
  StepDeclaration,
} from '../procedure/declaration.ts'
import { readingAt } from '../procedure/evaluation.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import {
  assertShare,
  binderSampleMethod,
  dryingParameters,
  dryingStep,
  fillerReading,
  massReading,
  takeMass,
} from './binder-sample.ts'
import { cautions } from './cautions.ts'
import { practised, practiceSource, remembered } from './edition-parameter.ts'

const d2172 = (value: string, unit: string, label: string) => remembered('ASTM D2172', value, unit, label)
const mineral = { key: 'mineral-matter', label: 'Mineral matter in the extract', displayDecimals: 2 } as const

const shared: EditionParameters = {
  ...dryingParameters,
  'aggregate-temperature': d2172('110', '°C', 'Oven while drying aggregate and filter'),
  'aggregate-temperature-tolerance': d2172('5', '°C', 'Oven while drying aggregate and filter, tolerance'),
  'ash-from': d2172('500', '°C', 'Ashing of the aliquot, at least'),
  'ash-to': d2172('600', '°C', 'Ashing of the aliquot, at most'),
}

const astm: BuiltInEdition = {
  key: 'astm-d2172',
  designation: 'ASTM D2172',
  year: 'year not checked',
  effectiveFrom: '2010-01-01',
  parameters: { ...shared, 'portion-least': d2172('500', 'g', 'Test portion of a mix of 4.75 mm, at least') },
}

/** Extracts by EN 12697-1. Solvent is the referee there; ignition by EN 12697-39 needs a correlation that was shown. */
const en: BuiltInEdition = {
  key: 'en-12274-2-2018',
  designation: 'EN 12274-2, extraction by EN 12697-1',
  year: '2018',
  effectiveFrom: '2018-01-01',
  parameters: Object.fromEntries(
    Object.entries(astm.parameters).map(([key, { value, unit, label }]) => [key, practised(value, unit, label)]),
  ),
}

const steps: readonly StepDeclaration[] = [
  dryingStep,
  {
    key: 'weigh-sample',
    title: 'Weigh the portion and the filter',
    instruction: 'Weigh the dried portion without its bowl, and the filter dry.',
    cautions: [cautions.dust],
    events: [],
    readings: [
      massReading('sample', 'Dried portion', '0.1', '5000'),
      massReading('filter', 'Filter, dry, before', '0.001', '50'),
    ],
    equipment: ['balance'],
    conditions: [],
  },
  {
    key: 'extract',
    title: 'Extract the binder',
    instruction:
      'Cover the portion with solvent until it falls apart, extract, and wash until the solvent runs off straw-coloured or clear. Keep all of the extract.',
    cautions: [cautions.solvent, cautions.alone],
    events: ['start', 'end'],
    eventLabels: { start: 'Solvent on', end: 'Washed clear' },
    readings: [],
    equipment: [],
    conditions: [],
    needs: ['weigh-sample'],
  },
  {
    key: 'weigh-aggregate',
    title: 'Weigh aggregate and filter',
    instruction:
      'Let the solvent air off under the hood first, then dry aggregate and filter to constant mass and weigh both. Fines on the filter count by its gain.',
    cautions: [cautions.solvent, cautions.oven],
    events: [],
    readings: [
      massReading('aggregate', 'Extracted aggregate, dry', '0.1', '5000'),
      massReading('filter', 'Filter, dry, after', '0.001', '60'),
      fillerReading,
    ],
    equipment: ['oven', 'balance'],
    conditions: [
      {
        label: 'Oven',
        targetParameter: 'aggregate-temperature',
        toleranceParameter: 'aggregate-temperature-tolerance',
      },
    ],
  },
  {
    key: 'mineral-matter',
    title: 'Find the mineral matter in the extract',
    instruction:
      'Fines pass the filter and leave with the binder: uncorrected they are counted as binder. Ash a measured aliquot of the extract and type its volumes and ash, or spin the fines out of all of it and type their mass.',
    cautions: [cautions.solvent, cautions.ignition],
    events: [],
    readings: [
      {
        key: 'way',
        label: 'Found by',
        kind: 'choice',
        choices: [
          { key: 'ash', label: 'Ash of an aliquot' },
          { key: 'recovered', label: 'Fines recovered from all of the extract' },
        ],
      },
      volume('extract', 'Volume of all of the extract', '10000'),
      volume('aliquot', 'Volume of the aliquot', '500'),
      massReading('ash', 'Ash of the aliquot', '0.001', '20', { optional: true }),
      massReading('fines', 'Fines recovered, dry', '0.1', '500', { optional: true }),
    ],
    equipment: ['balance'],
    conditions: [],
  },
]

function volume(key: string, text: string, to: string) {
  return {
    key,
    label: text,
    kind: 'number',
    unit: 'mL',
    resolution: '1',
    plausible: { from: '10', to, source: practiceSource },
    optional: true,
  } as const
}

/** Mineral matter of the extract in g, line `F`: ash × volume of the extract ÷ volume of the aliquot, or as weighed. */
function mineralMatter(work: CalculationBuilder, readings: readonly ObservedReading[], source: string) {
  const at = (key: string) => readingAt(readings, 'mineral-matter', key)
  const text = (symbol: string, name: string, unit = 'g') => ({ symbol, name, unit, source })
  if (at('way').value === 'recovered') {
    takeMass(work, 'r', 'Fines recovered', at('fines'))
    work.sum(text('F', mineral.label), 'r', '0')
    return
  }
  const [extract, aliquot] = [at('extract'), at('aliquot')]
  if (decimal(aliquot.value).lte(0) || decimal(aliquot.value).gt(extract.value))
    throw new MethodInputError('inconsistent', 'The aliquot is a part of the extract: look at both volumes again.', {
      extract: `${extract.value} mL`,
      aliquot: `${aliquot.value} mL`,
    })
  takeMass(work, 'V', 'Volume of the extract', extract)
  takeMass(work, 'v', 'Volume of the aliquot', aliquot)
  takeMass(work, 'a', 'Ash of the aliquot', at('ash'))
  work.product(text('aV', 'Ash times the volume of the extract', 'g·mL'), 'a', 'V')
  work.quotient(text('F', mineral.label), 'aV', 'v')
}

/** Binder = portion − aggregate − gain of the filter − mineral matter of the extract, line `P` in % of the total dry mix. */
function binderOf(work: CalculationBuilder, readings: readonly ObservedReading[], source: string) {
  takeMass(work, 'M', 'Dried portion', readingAt(readings, 'weigh-sample', 'sample'))
  takeMass(work, 'G', 'Extracted aggregate', readingAt(readings, 'weigh-aggregate', 'aggregate'))
  takeMass(work, 'f1', 'Filter before', readingAt(readings, 'weigh-sample', 'filter'))
  takeMass(work, 'f2', 'Filter after', readingAt(readings, 'weigh-aggregate', 'filter'))
  mineralMatter(work, readings, source)
  const text = (symbol: string, name: string, unit = 'g') => ({ symbol, name, unit, source })
  if (work.difference(text('g', 'Fines on the filter'), 'f2', 'f1').lt(0))
    throw new MethodInputError('loss', 'The filter weighs less after extraction than before: look at both again.')
  work.sum(text('T', 'Aggregate and filler in all'), 'G', 'g', 'F')
  work.difference(text('D', 'Binder'), 'M', 'T')
  work.product(text('D1', 'A hundred times the binder'), 'D', '100')
  const share = work.quotient(text('P', 'Binder content, % of total dry mix', '% of total dry mix'), 'D1', 'M')
  assertShare(share, plainDigits(share))
}

/** Binder content of a field sample by solvent: what is left is weighed, and the fines that left with the binder added. */
const extraction = (
  names: Pick<MethodDeclaration, 'key' | 'name' | 'shortName'>,
  edition: BuiltInEdition,
  source: string,
): MethodDeclaration =>
  binderSampleMethod({
    names,
    edition,
    steps,
    found: mineral,
    findIn: (work, readings) => mineralMatter(work, readings, source),
    fillerStep: 'weigh-aggregate',
    binderIn: (work, readings) => binderOf(work, readings, source),
    portionOf: (readings) => readingAt(readings, 'weigh-sample', 'sample').value,
  })

export const binderExtraction = extraction(
  {
    key: 'binder-extraction',
    name: 'Binder content of a sample, by solvent',
    shortName: 'Binder, solvent',
  },
  astm,
  'ASTM D2172, from memory, unverified',
)
export const binderExtractionEn = extraction(
  {
    key: 'binder-extraction-en',
    name: 'Residual binder content of a sample, EN 12274-2',
    shortName: 'Binder, EN',
  },
  en,
  'EN 12697-1, from memory, unverified',
)
