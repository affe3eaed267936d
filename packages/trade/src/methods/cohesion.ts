import type {
  BuiltInEdition,
  EditionParameter,
  EditionParameters,
  MethodDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas } from '../procedure/evaluation.ts'
import { cohesionFormulas, cohesionResults, type CohesionText } from './cohesion-results.ts'
import { cohesionSteps, cohesionWindows, type TorqueScale, twists, twistStep } from './cohesion-steps.ts'
import { practised, published, remembered, replicatesPractised } from './edition-parameter.ts'
import { replicatesParameter } from '../procedure/replicates.ts'
import { decimal, plainDigits } from '../quantity/decimal.ts'

const report = 'Caltrans contract 65A0151, Phase II report (2010)'
const read = (value: string, unit: string, label: string) => published(report, 'page 27', value, unit, label)

type Remember = (value: string, unit: string, label: string) => EditionParameter

/** What the two forms rest on: how each number is known. */
type Told = {
  /** ISSA TB-139, from memory, unverified; for the European form common practice, no source. */
  readonly rest: Remember
  /** The same where the memory is not sure of the value. */
  readonly unsure: Remember
  /** The pooled-fund study was read for the form in kg·cm. */
  readonly pressure: Remember
  /** EN 12274-4 was read for the arc and the time of the twist. */
  readonly twist: Remember
  readonly replicates: EditionParameters
}

/**
 * From a minute before its time to four minutes after it, as the twists at 30 and 60 min: the rings of a set are cast one
 * after the other, and the times run from the first; common practice, no source.
 */
const twistWindow = ({ minute, required, known }: (typeof twists)[number], told: Remember): EditionParameters => ({
  // Those of 30 and 60 min say what they are for.
  ...(required
    ? {}
    : {
        [twistStep(minute)]: (known === 'practised' ? practised : told)(
          minute,
          'min',
          'Twist where it is wanted, minutes since the casting of its ring',
        ),
      }),
  [`twist-${minute}-earliest`]: practised(
    plainDigits(decimal(minute).minus('1')), // common practice, no source
    'min',
    `Twist at ${minute} min, at the earliest`,
  ),
  [`twist-${minute}-latest`]: practised(
    plainDigits(decimal(minute).plus('4')), // common practice, no source
    'min',
    `Twist at ${minute} min, at the latest, counted from the first of the rings`,
  ),
})

/**
 * What both forms of the test ask for: ISSA TB-139, from memory, unverified; for the European form common practice, no source,
 * beside what was read of EN 12274-4 (2018). Each number says itself how it is known.
 */
const parametersFor = ({ rest: told, unsure, pressure, twist, replicates }: Told): EditionParameters => ({
  ...replicates,
  aggregate: practised('400', 'g', 'Dry aggregate of one batch: ten rings of 6 mm with what is left over'),
  'ring-diameter': told('60', 'mm', 'Ring, inside diameter'),
  'ring-height': told('6', 'mm', 'Ring, height for aggregate of Type II'),
  'ring-height-coarse': told('10', 'mm', 'Ring, height for aggregate of Type III'),
  'foot-diameter': told('28.6', 'mm', 'Foot, diameter'),
  'foot-thickness': told('6.4', 'mm', 'Foot, thickness of the rubber'),
  'foot-hardness-least': told('50', 'count', 'Foot, hardness of the rubber by durometer, at least'),
  'foot-hardness-most': told('70', 'count', 'Foot, hardness of the rubber by durometer, at most'),
  'foot-pressure': pressure('200', 'kPa', 'Pressure under the foot; 28.5 psi is the same rounded otherwise'),
  'foot-pressure-tolerance': practised('5', 'kPa', 'Pressure under the foot, tolerance'),
  'room-temperature': told('25', '°C', 'Where the rings stand'),
  'room-temperature-tolerance': practised('2', '°C', 'Where the rings stand, tolerance'),
  humidity: told('50', '%', 'Relative humidity where the rings stand'),
  'settle-least': told('5', 's', 'Foot on the ring before the twist, at least'),
  'settle-most': told('6', 's', 'Foot on the ring before the twist, at most'),
  'twist-arc-least': twist('90', '°', 'Arc of the twist, at least'),
  'twist-arc-most': twist('120', '°', 'Arc of the twist, at most'),
  'twist-time-least': twist('0.5', 's', 'Time of the twist, at least'),
  'twist-time-most': twist('0.7', 's', 'Time of the twist, at most'),
  'twist-30': told('30', 'min', 'Twist for the set, minutes since the casting of its ring'),
  'twist-30-tolerance': unsure('1', 'min', 'Twist at 30 min, tolerance'),
  'twist-60': told('60', 'min', 'Twist for early traffic, minutes since the casting of its ring'),
  'twist-60-tolerance': unsure('1', 'min', 'Twist at 60 min, tolerance'),
  ...Object.assign({}, ...twists.map((one) => twistWindow(one, told))),
})

function cohesionMethod(
  names: Pick<MethodDeclaration, 'key' | 'name' | 'shortName'>,
  text: CohesionText,
  scale: TorqueScale,
  editions: readonly BuiltInEdition[],
): MethodDeclaration {
  const steps = cohesionSteps(scale)
  return {
    ...names,
    answers: [
      { property: 'cohesion-30-min', result: 'cohesion-30-min' },
      { property: 'cohesion-60-min', result: 'cohesion-60-min' },
      { property: 'set-time', result: 'set-time' },
      { property: 'traffic-time', result: 'traffic-time' },
    ],
    place: 'panel',
    madeFrom: 'batch',
    portionParameter: 'aggregate',
    form: 'ring',
    computation: 1,
    steps,
    windows: cohesionWindows,
    editions,
    resultOfRecord: 'cohesion-60-min',
    results: cohesionResults(text),
    chart: {
      key: `cohesion-${scale.unit}`,
      title: 'Torque over time',
      x: { label: 'After casting', unit: 'min' },
      y: { label: 'Torque', unit: scale.unit },
      lines: [
        {
          points: twists.map(({ minute }) => ({
            x: { reading: { step: twistStep(minute), key: 'minute' } },
            y: { reading: { step: twistStep(minute), key: 'torque' } },
          })),
        },
      ],
    },
    evaluate: (readings, setup) => evaluateFormulas(steps, readings, cohesionFormulas(text, readings, setup)),
  }
}

const tb139: Remember = (value, unit, label) => remembered('ISSA TB-139', value, unit, label)
const tb139Unsure: Remember = (value, unit, label) => remembered('ISSA TB-139, unsure of the value', value, unit, label)

/** Set and cure of a mix by its cohesion: rings twisted one after the other, torque in kg·cm (ISSA TB-139, ASTM D3910). */
export const cohesion = cohesionMethod(
  { key: 'cohesion', name: 'Cohesion: set and cure', shortName: 'Cohesion' },
  { unit: 'kg·cm', decimals: 1, source: 'ISSA TB-139, from memory, unverified' },
  { unit: 'kg·cm', resolution: '0.5', askedAbove: '30' },
  [
    {
      key: 'issa-tb-139',
      designation: 'ISSA TB-139; ASTM D3910',
      year: 'year not checked',
      effectiveFrom: '2010-01-01',
      parameters: {
        ...parametersFor({
          ...{ rest: tb139, unsure: tb139Unsure, pressure: read, twist: tb139 },
          replicates: replicatesPractised('3'), // common practice, no source
        }),
        'set-torque': tb139('12', 'kg·cm', 'Torque of a mix that has set'),
        'traffic-torque': tb139('20', 'kg·cm', 'Torque of a mix that takes early rolling traffic'),
        'torque-fall': practised('2', 'kg·cm', 'Torque lower than that of the ring before, told beyond'),
      },
    },
  ],
)

const en: Remember = (value, unit, label) => remembered('EN 12274-4', value, unit, label)
const enRead: Remember = (value, unit, label) => published('EN 12274-4 (2018)', undefined, value, unit, label)

/**
 * The same by EN 12274-4, in N·m. Its title, edition, unit, twist and number of specimens were read, the rest of its text
 * was not at hand: what is not remembered of it is practice.
 */
export const cohesionEn = cohesionMethod(
  { key: 'cohesion-en', name: 'Cohesion of the mix, EN 12274-4', shortName: 'Cohesion, EN' },
  { unit: 'N·m', decimals: 2, source: 'EN 12274-4, from memory, unverified' },
  { unit: 'N·m', resolution: '0.01', askedAbove: '3' },
  [
    {
      key: 'en-12274-4-2018',
      designation: 'EN 12274-4',
      year: '2018',
      effectiveFrom: '2018-01-01',
      parameters: {
        ...parametersFor({
          ...{ rest: practised, unsure: practised, pressure: practised, twist: enRead },
          replicates: {
            [replicatesParameter]: enRead('5', 'count', 'Specimens of the same mix at each chosen time, at least'),
          },
        }),
        'set-torque': en('1.2', 'N·m', 'Torque of a mix that has set'),
        'traffic-torque': en('2.0', 'N·m', 'Torque of a mix that takes traffic'),
        'torque-fall': practised('0.2', 'N·m', 'Torque lower than that of the ring before, told beyond'),
      },
    },
  ],
)
