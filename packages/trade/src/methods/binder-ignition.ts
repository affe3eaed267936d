import type { BuiltInEdition, ObservedReading, StepDeclaration } from '../procedure/declaration.ts'
import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import { readingAt } from '../procedure/evaluation.ts'
import { plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import {
  assertShare,
  binderSampleMethod,
  dryingParameters,
  dryingStep,
  fillerReading,
  massReading,
  scatterStudy,
  takeMass,
} from './binder-sample.ts'
import { cautions } from './cautions.ts'
import { practiceSource, published, remembered } from './edition-parameter.ts'

const t308 = (value: string, unit: string, label: string) => remembered('AASHTO T 308', value, unit, label)
const source = 'AASHTO T 308, from memory, unverified'
const loss = { key: 'loss-on-ignition', label: 'Loss on ignition, uncorrected', displayDecimals: 2 } as const

const edition: BuiltInEdition = {
  key: 'aashto-t-308',
  designation: 'AASHTO T 308, external balance',
  year: 'year not checked',
  effectiveFrom: '2010-01-01',
  parameters: {
    ...dryingParameters,
    'portion-least': t308('1200', 'g', 'Test portion of a mix of 4.75 mm, at least'),
    'furnace-temperature': t308('538', '°C', 'Ignition furnace'),
    'furnace-temperature-tolerance': t308('5', '°C', 'Ignition furnace, tolerance'),
    'furnace-lower': t308('482', '°C', 'Ignition furnace where the correction at the usual heat is too large'),
    'correction-large': t308('1.0', '%', 'Correction beyond which the furnace is set lower'),
    'constant-mass': t308('0.01', '%', 'Constant mass: change of the sample in 15 min, no more than'),
    // The abstract says ±0.426 % within a laboratory and not of what: it is read as the difference of two results.
    repeatability: published(
      scatterStudy,
      undefined,
      '0.426',
      '% of total dry mix',
      'Repeatability r: two results of one laboratory on one material differ by no more than',
    ),
  },
}

const steps: readonly StepDeclaration[] = [
  dryingStep,
  {
    key: 'load',
    title: 'Load the basket',
    instruction:
      'Weigh the basket with its lid and catch pan, spread the dried sample in it, and weigh all of it again.',
    cautions: [cautions.dust],
    events: [],
    readings: [
      massReading('basket', 'Basket assembly, empty', '0.1', '5000'),
      massReading('loaded', 'Basket assembly with the dried sample', '0.1', '8000'),
    ],
    equipment: ['balance'],
    conditions: [],
  },
  {
    key: 'ignite',
    title: 'Burn the binder off',
    instruction: 'Burn at the heat at which the correction of this mix was found, until the mass no longer changes.',
    cautions: [cautions.ignition, cautions.alone],
    events: ['start', 'end'],
    eventLabels: { start: 'In the furnace', end: 'Out of the furnace' },
    readings: [],
    equipment: ['oven'],
    conditions: [
      {
        label: 'Furnace',
        targetParameter: 'furnace-temperature',
        toleranceParameter: 'furnace-temperature-tolerance',
      },
    ],
    needs: ['load'],
  },
  {
    key: 'weigh-burnt',
    title: 'Weigh what is left',
    instruction:
      'Let the basket cool to room temperature behind its cage and weigh it. The correction is what the furnace burns off the bare aggregate and filler of this mix beyond its binder: found once for each mix and furnace with samples of known binder.',
    cautions: [cautions.ignition],
    events: [],
    readings: [
      massReading('burnt', 'Basket assembly with what is left', '0.1', '8000'),
      {
        key: 'correction',
        label: 'Correction of this mix and furnace, % of the sample',
        kind: 'number',
        unit: '%',
        resolution: '0.01',
        plausible: { from: '-0.5', to: '1', source: practiceSource },
      },
      fillerReading,
    ],
    equipment: ['balance'],
    conditions: [],
  },
]

/** Loss = 100 × (loaded − burnt) ÷ (loaded − basket), line `L` in % of the dried sample. */
function lossOf(work: CalculationBuilder, readings: readonly ObservedReading[]) {
  takeMass(work, 'B', 'Basket assembly, empty', readingAt(readings, 'load', 'basket'))
  takeMass(work, 'B1', 'Basket with the dried sample', readingAt(readings, 'load', 'loaded'))
  takeMass(work, 'B2', 'Basket with what is left', readingAt(readings, 'weigh-burnt', 'burnt'))
  const text = (symbol: string, name: string, unit = 'g') => ({ symbol, name, unit, source })
  const sample = work.difference(text('M', 'Dried sample'), 'B1', 'B')
  if (sample.lte(0))
    throw new MethodInputError('not-positive', 'The basket weighs no more with the sample than without: weigh again.')
  const lost = work.difference(text('D', 'Burnt off'), 'B1', 'B2')
  if (lost.lt(0))
    throw new MethodInputError(
      'gain',
      'The basket weighs more after burning than before: not this basket? Weigh again.',
    )
  work.product(text('D1', 'A hundred times what burnt'), 'D', '100')
  work.quotient(text('L', loss.label, '%'), 'D1', 'M')
  return plainDigits(sample)
}

/** Binder = loss − correction, line `P` in % of the total dry mix. */
function binderOf(work: CalculationBuilder, readings: readonly ObservedReading[]) {
  lossOf(work, readings)
  const correction = readingAt(readings, 'weigh-burnt', 'correction')
  work.input(
    { symbol: 'C', name: 'Correction of this mix and furnace', unit: '%', source: 'as entered' },
    correction.value,
    { kind: 'reading', id: correction.id, key: correction.key },
  )
  const text = { symbol: 'P', name: 'Binder content, % of total dry mix', unit: '% of total dry mix', source }
  const share = work.difference(text, 'L', 'C')
  assertShare(share, plainDigits(share))
}

/** Binder content of a field sample by ignition: the loss on ignition less the correction of its mix and furnace. */
export const binderIgnition = binderSampleMethod({
  names: {
    key: 'binder-ignition',
    name: 'Binder content of a sample, by ignition',
    shortName: 'Binder, ignition',
  },
  edition,
  steps,
  found: loss,
  findIn: lossOf,
  fillerStep: 'weigh-burnt',
  binderIn: binderOf,
  portionOf: (readings) => lossOf(createCalculation(), readings),
})
