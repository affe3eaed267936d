import { createCalculation } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedChoice,
  ComputedResult,
  EvaluationSetup,
  MethodDeclaration,
  ObservedReading,
} from '../procedure/declaration.ts'
import { evaluateFormulas, parameterOf, readingAt, resultOf, setupInput } from '../procedure/evaluation.ts'
import { decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { compatibilitySteps, compatibilityWindows } from './classification-compatibility-steps.ts'
import {
  gradeChoices,
  gradedProperties,
  gradeOf,
  gradeParameters,
  type GradedProperty,
} from './compatibility-grades.ts'
import { practised, remembered, replicatesPractised } from './edition-parameter.ts'
import { measuredPills, pillValues, type PillValueKey } from './pill-values.ts'
import { outsideUsual, takePositive } from './working-inputs.ts'

const tb144 = (value: string, unit: string, label: string) => remembered('ISSA TB-144', value, unit, label)
const unsure = (value: string, unit: string, label: string) =>
  remembered('ISSA TB-144, unsure of the value', value, unit, label)
const source = 'ISSA TB-144, from memory, unverified'

const edition: BuiltInEdition = {
  key: 'issa-tb-144',
  designation: 'ISSA TB-144',
  year: 'year not checked',
  effectiveFrom: '2010-01-01',
  parameters: {
    ...replicatesPractised('1'), // common practice, no source
    'largest-particle': unsure('2', 'mm', 'Fines: passing'),
    fines: unsure('200', 'g', 'Dry fines of one set'),
    'binder-least': unsure('8.1', '% of dry aggregate', 'Residual binder of the pills, at least'),
    'binder-most': unsure('8.3', '% of dry aggregate', 'Residual binder of the pills, at most'),
    'cure-temperature': practised('60', '°C', 'Oven while curing'),
    'cure-temperature-tolerance': practised('3', '°C', 'Oven while curing, tolerance'),
    'pill-charge': tb144('40', 'g', 'Charge of one pill'),
    'pill-diameter': tb144('30', 'mm', 'Diameter of a pill'),
    'press-load': tb144('1000', 'kg', 'Load on the ram'),
    'press-hold': tb144('1', 'min', 'Load held for'),
    'balance-step': practised('0.01', 'g', 'Balance, smallest step'),
    'soak-temperature': tb144('25', '°C', 'Bath while soaking'),
    'soak-temperature-tolerance': practised('1', '°C', 'Bath while soaking, tolerance'),
    'soak-earliest': tb144('144', 'h', 'Soak, at least'),
    'soak-latest': practised('146', 'h', 'Soak, at most'),
    'tube-water': tb144('750', 'mL', 'Water in a tube'),
    'tumble-rate': tb144('20', 'count', 'Turns in a minute'),
    'tumble-turns': tb144('3600', 'count', 'Turns: 3 h at 20 a minute'),
    'tumble-earliest': practised('178', 'min', 'Tumbling, at least'),
    'tumble-latest': practised('185', 'min', 'Tumbling, at most'),
    boil: tb144('30', 'min', 'Boiling'),
    'boil-seconds': tb144('1800', 's', 'Boiling, for the clock of the step'),
    'boil-earliest': practised('29', 'min', 'Boiling, at least'),
    'boil-latest': practised('32', 'min', 'Boiling, at most'),
    'dry-earliest': tb144('24', 'h', 'Drying before what is coated is judged, at least'),
    'absorption-usual-most': practised('10', '%', 'Absorption, usually at most'),
    'abrasion-usual-most': practised('3', 'g', 'Abrasion loss, usually at most'),
    'integrity-over-most': practised('1', '%', 'Pill heavier after boiling than before, by water taken up, at most'),
    ...gradeParameters,
  },
}

const text: Readonly<
  Record<PillValueKey, { readonly label: string; readonly unit: string; readonly decimals: number }>
> = {
  absorption: { label: 'Absorption of the pills', unit: '%', decimals: 1 },
  abrasion: { label: 'Abrasion loss of a pill', unit: 'g', decimals: 2 },
  integrity: { label: 'Integrity after boiling, mass in one piece', unit: '%', decimals: 0 },
  adhesion: { label: 'Adhesion after boiling, surface coated', unit: '%', decimals: 0 },
}
const gradeLabels: Readonly<Record<GradedProperty, string>> = {
  abrasion: 'Grade of abrasion',
  adhesion: 'Grade of adhesion',
  integrity: 'Grade of integrity',
}
const gradeKey = (property: GradedProperty) => `${property}-grade`
const points = { key: 'points', label: 'Compatibility, total points', displayDecimals: 0 }
const binder = { key: 'residual-binder', label: 'Residual binder of the pills', displayDecimals: 2 }

function valueOf(key: PillValueKey, readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  const work = createCalculation()
  const value = pillValues[key](measuredPills(work, readings, setup), text[key].label)
  const usual = setup.parameters[`${key}-usual-most`]
  const findings = [
    ...(usual ? outsideUsual(text[key].label, value, text[key].unit, { most: usual }) : []),
    ...(key === 'integrity'
      ? outsideUsual(text[key].label, value, '%', {
          most: { ...parameterOf(setup, 'integrity-over-most'), value: '100' },
        })
      : []),
  ]
  return {
    ...resultOf(work.calculation(), { key, label: text[key].label, displayDecimals: text[key].decimals }),
    findings,
  }
}

function gradeResult(
  property: GradedProperty,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): ComputedChoice {
  const work = createCalculation()
  const value = pillValues[property](measuredPills(work, readings, setup), text[property].label)
  const choice = gradeOf(work, property, value, setup)
  return { key: gradeKey(property), label: gradeLabels[property], choice, calculation: work.calculation() }
}

/** Sum of the points of the three grades, at most 12 by the table as shipped. */
function totalPoints(readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  const work = createCalculation()
  const measured = measuredPills(work, readings, setup)
  for (const property of gradedProperties) {
    const value = pillValues[property](measured, text[property].label)
    gradeOf(work, property, value, setup)
  }
  work.sum(
    { symbol: 'P', name: points.label, unit: 'points', source },
    ...gradedProperties.map((property) => `P.${property}`),
  )
  return resultOf(work.calculation(), points)
}

/** Emulsion × residue over the dry fines, % of dry aggregate; the pills are not of the design's own content. */
function binderOf(readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedResult {
  const residue = setupInput(setup, 'residue', 'The residue of the emulsion')
  if (decimal(residue.value).lte(0) || decimal(residue.value).gt(100))
    throw new MethodInputError('inconsistent', 'The residue of an emulsion lies between 0 and 100 %.', {
      residue: `${residue.value} %`,
    })
  const work = createCalculation()
  const weighed = { unit: 'g', source: 'as weighed' } as const
  takePositive(work, { symbol: 'm', name: 'Dry fines', ...weighed }, readingAt(readings, 'weigh-components', 'fines'))
  takePositive(work, { symbol: 'e', name: 'Emulsion', ...weighed }, readingAt(readings, 'weigh-components', 'emulsion'))
  work.input({ symbol: 'r', name: 'Residue of the emulsion', unit: '%', source: residue.source }, residue.value, {
    kind: 'result',
    id: residue.id,
    key: 'residue',
  })
  // Mass × per cent is a hundredfold of the binder's mass, which is just what a share in per cent needs.
  const arithmetic = 'share of the dry fines, arithmetic'
  const unit = '% of dry aggregate'
  work.product({ symbol: 'p', name: 'A hundred times the binder', unit: 'g', source: arithmetic }, 'e', 'r')
  const value = work.quotient({ symbol: 'B', name: binder.label, unit, source: arithmetic }, 'p', 'm')
  const findings = outsideUsual(binder.label, value, unit, {
    least: parameterOf(setup, 'binder-least'),
    most: parameterOf(setup, 'binder-most'),
  })
  return { ...resultOf(work.calculation(), binder), findings }
}

const keys = Object.keys(text) as PillValueKey[]

/**
 * Compatibility of aggregate, filler and binder by four pills (Schulze-Breuer and Ruck, ISSA TB-144): absorption in %,
 * abrasion loss in g, integrity and adhesion after boiling in %, a grade for each of the last three, and total points.
 */
export const classificationCompatibility: MethodDeclaration = {
  key: 'classification-compatibility',
  name: 'Compatibility of aggregate, filler and binder',
  shortName: 'Compatibility',
  answers: [{ property: 'compatibility', result: 'points' }],
  place: 'panel',
  madeFrom: 'materials',
  form: 'pill',
  computation: 1,
  steps: compatibilitySteps,
  windows: compatibilityWindows,
  editions: [edition],
  resultOfRecord: 'points',
  results: [
    ...keys.map((key) => ({ key, label: text[key].label, unit: text[key].unit, displayDecimals: text[key].decimals })),
    ...gradedProperties.map((property) => ({
      key: gradeKey(property),
      label: gradeLabels[property],
      displayDecimals: 0,
      choices: gradeChoices,
    })),
    {
      ...points,
      unit: 'points',
      reporting: {
        words:
          'Three letters in the order abrasion, adhesion, integrity, then the total points; absorption beside them',
        source,
      },
    },
    { ...binder, unit: '% of dry aggregate' },
  ],
  evaluate: (readings, setup) =>
    evaluateFormulas(compatibilitySteps, readings, [
      ...keys.map((key) => ({ keys: [key], compute: () => [valueOf(key, readings, setup)] })),
      ...gradedProperties.map((property) => ({
        keys: [gradeKey(property)],
        compute: () => [gradeResult(property, readings, setup)],
      })),
      { keys: [points.key], compute: () => [totalPoints(readings, setup)] },
      { keys: [binder.key], compute: () => [binderOf(readings, setup)] },
    ]),
}
