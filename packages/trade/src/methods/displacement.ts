import type { BuiltInEdition, MethodDeclaration, ResultDeclaration } from '../procedure/declaration.ts'
import { evaluateFormulas } from '../procedure/evaluation.ts'
import {
  type Direction,
  displacement,
  displacements,
  meanDisplacement,
  meanKey,
  meanLabel,
} from './displacement-change.ts'
import { displacementSteps, displacementWindows } from './displacement-steps.ts'
import { practiceSource, practised, published, remembered, replicatesPractised } from './edition-parameter.ts'
import { specificGravity, specificGravityUnit, stripSpecificGravity } from './strip-specific-gravity.ts'

const tb147 = (value: string, unit: string, label: string) => remembered('ISSA TB-147', value, unit, label)
/** Read in its opening page. */
const tb147Read = (value: string, unit: string, label: string) =>
  published('ISSA TB-147 (2005)', undefined, value, unit, label)

const edition: BuiltInEdition = {
  key: 'issa-tb-147-2005',
  designation: 'ISSA TB-147',
  year: '2005',
  effectiveFrom: '2010-01-01',
  parameters: {
    ...replicatesPractised('3'), // common practice, no source
    'strip-aggregate': tb147Read('500', 'g', 'Dry aggregate of one batch for the 12.7 mm mould'),
    'mould-thickness': tb147Read('12.7', 'mm', 'Mould, thickness'),
    'mould-width': tb147('50.8', 'mm', 'Mould, width'),
    'mould-length': tb147('381', 'mm', 'Mould, length'),
    'plate-thickness': tb147Read('0.61', 'mm', 'Plate, thickness (24 gauge)'),
    'plate-width': tb147Read('76.2', 'mm', 'Plate, width'),
    'plate-length': tb147Read('406.4', 'mm', 'Plate, length'),
    'calliper-step': tb147Read('0.01', 'mm', 'Calliper, smallest step'),
    'cure-temperature': tb147('60', '°C', 'Oven while curing'),
    'cure-temperature-tolerance': practised('3', '°C', 'Oven while curing, tolerance'),
    'cure-earliest': practised('12', 'h', 'Cure, at least, to constant mass; no upper end'),
    'constant-mass': practised('0.1', 'g', 'Constant mass: two weighings of a check strip differ by no more than'),
    'constant-mass-interval': practised('1', 'h', 'Constant mass: time between the two weighings'),
    'balance-step': practised('0.01', 'g', 'Balance, smallest step'),
    'wheel-load': tb147('125', 'lb', 'Load on the wheel'),
    'wheel-load-tolerance': practised('1', 'lb', 'Load on the wheel, tolerance'),
    cycles: tb147('1000', 'count', 'Cycles'),
    'cycle-rate': remembered('ISSA TB-109', '44', 'count', 'Cycles in a minute'),
    'room-temperature': tb147('23.6', '°C', 'Room while the wheel runs (72 to 77 °F)'),
    'room-temperature-tolerance': tb147('1.4', '°C', 'Room while the wheel runs, tolerance'),
    'reversed-most': practised('1', '%', 'Narrower or thicker than before by no more than'),
    'lateral-usual-most': practised('12', '%', 'Lateral displacement, usually at most'),
    'vertical-usual-most': practised('20', '%', 'Vertical displacement, usually at most'),
    'specific-gravity-usual-least': practised('1.7', 'count', 'Specific gravity after the wheel, usually at least'),
    'specific-gravity-usual-most': practised('2.4', 'count', 'Specific gravity after the wheel, usually at most'),
  },
}

const directions = Object.keys(displacements) as Direction[]
const reported = (words: string): ResultDeclaration['reporting'] => ({ words, source: practiceSource })

/**
 * Displacement of a thick strip under the loaded wheel, method A of ISSA TB-147: how much wider and thinner it became, % of
 * what it was, and its specific gravity afterwards. The immersed and the many-layered variants are other methods.
 */
export const loadedWheelDisplacement: MethodDeclaration = {
  key: 'loaded-wheel-displacement',
  name: 'Loaded wheel displacement and specific gravity',
  shortName: 'Displacement',
  answers: [
    { property: 'lateral-displacement', result: displacements.lateral.key },
    { property: 'vertical-displacement', result: displacements.vertical.key },
    { property: 'specific-gravity', result: specificGravity.key },
  ],
  place: 'panel',
  madeFrom: 'batch',
  portionParameter: 'strip-aggregate',
  form: 'strip',
  computation: 1,
  steps: displacementSteps,
  windows: displacementWindows,
  editions: [edition],
  resultOfRecord: displacements.lateral.key,
  chart: {
    key: 'displacement',
    title: 'Displacement under the wheel',
    x: { label: 'Emulsion', unit: '% of dry aggregate' },
    y: { label: 'Displacement', unit: '%' },
    lines: directions.map((direction) => ({
      label: displacements[direction].label,
      points: [{ x: { content: true }, y: { result: displacements[direction].key } }],
    })),
  },
  results: [
    ...directions.map((direction) => ({
      key: displacements[direction].key,
      label: displacements[direction].label,
      unit: '%',
      displayDecimals: 1,
      reporting: reported('In per cent of the measure before the wheel, at mid-length'),
    })),
    ...directions.map((direction) => ({
      key: meanKey(direction),
      label: meanLabel(direction),
      unit: '%',
      displayDecimals: 1,
    })),
    {
      ...specificGravity,
      unit: specificGravityUnit,
      reporting: reported('To 0.01, with whether the strip was weighed alone or with its plate'),
    },
  ],
  evaluate: (readings, setup) =>
    evaluateFormulas(displacementSteps, readings, [
      ...directions.map((direction) => ({
        keys: [displacements[direction].key],
        compute: () => [displacement(direction, readings, setup)],
      })),
      ...directions.map((direction) => ({
        keys: [meanKey(direction)],
        compute: () => meanDisplacement(direction, readings, setup),
      })),
      { keys: [specificGravity.key], compute: () => stripSpecificGravity(readings, setup) },
    ]),
}
