import { createCalculation } from '../procedure/calculation-builder.ts'
import type {
  BuiltInEdition,
  ComputedChoice,
  EvaluationSetup,
  MethodDeclaration,
  ObservedReading,
  ReadingDeclaration,
  StepDeclaration,
} from '../procedure/declaration.ts'
import { evaluateFormulas, readingAt } from '../procedure/evaluation.ts'
import { cautions } from './cautions.ts'
import { practiceSource, practised, replicatesPractised } from './edition-parameter.ts'
import { takeParameter } from './working-inputs.ts'

const source = 'ISSA TB-115, from memory, unverified'

const edition: BuiltInEdition = {
  key: 'issa-tb-115',
  designation: 'ISSA TB-115',
  year: 'year not checked',
  effectiveFrom: '2010-01-01',
  parameters: {
    ...replicatesPractised('1'), // common practice, no source
    'cup-aggregate': practised('100', 'g', 'Dry aggregate of one cup'),
    'faults-most': practised('0', 'count', 'Faults with which a system still passes, at most'),
  },
}

/** What is seen, from best to worst: `good` is no fault, `weak` is no fault and worth a sentence, `fault` is one. */
type Seen = { readonly key: string; readonly label: string; readonly weight: 'good' | 'weak' | 'fault' }
type Look = { readonly step: string; readonly key: string; readonly label: string; readonly seen: readonly Seen[] }

type Named = readonly [key: string, label: string]

/** What is looked at, with what may be seen of it: good, weak, fault. */
function look(step: string, key: string, label: string, ...seen: readonly [Named, Named, Named]): Look {
  const weights = ['good', 'weak', 'fault'] as const
  return {
    step,
    key,
    label,
    seen: seen.map(([as, words], index) => ({ key: as, label: words, weight: weights[index]! })),
  }
}

const looks: readonly Look[] = [
  look(
    'mix',
    'mixing',
    'Mixing',
    ['even', 'Mixes evenly, free flowing'],
    ['stiff', 'Stiffens, still mixes'],
    ['broke', 'Lumps, or breaks while it is stirred'],
  ),
  look('mix', 'coating', 'Coating', ['whole', 'Whole'], ['thin', 'Whole, in places thin'], ['bare', 'Bare aggregate']),
  look(
    'stand',
    'segregation',
    'Segregation in the cup',
    ['none', 'None'],
    ['slight', 'Slight'],
    ['marked', 'Stones sink, or binder and fines float'],
  ),
  look(
    'split',
    'section',
    'Split face',
    ['even', 'Stones and binder even over the whole depth'],
    ['nearly', 'Nearly even'],
    ['layered', 'Layered: rich skin, or bare or crumbling parts'],
  ),
]

const readingsOf = (step: string): readonly ReadingDeclaration[] =>
  looks
    .filter((look) => look.step === step)
    .map(({ key, label, seen }) => ({
      key,
      label,
      kind: 'choice',
      choices: seen.map((one) => ({ key: one.key, label: one.label })),
    }))
const observation: ReadingDeclaration = { key: 'observation', label: 'What was seen', kind: 'text', optional: true }

const steps: readonly StepDeclaration[] = [
  {
    key: 'mix',
    title: 'Mix in the cup',
    instruction:
      'Stir aggregate and filler, then water and additive, then the emulsion, as in a trial mix. See whether it mixes and coats.',
    cautions: [cautions.emulsion, cautions.filler, cautions.additive],
    events: ['start'],
    eventLabels: { start: 'Emulsion in' },
    readings: [
      ...readingsOf('mix'),
      {
        key: 'temperature',
        label: 'Materials and room',
        kind: 'number',
        unit: '°C',
        resolution: '1',
        plausible: { from: '10', to: '50', source: practiceSource },
        optional: true,
        instrument: 'thermometer',
      },
      observation,
    ],
    equipment: [],
    conditions: [],
  },
  {
    key: 'stand',
    title: 'Let it stand and set',
    instruction: 'Leave the mix in its cup, untouched, until it has set. See whether stones sank or binder rose.',
    cautions: [],
    events: ['end'],
    eventLabels: { end: 'Set' },
    readings: [...readingsOf('stand'), observation],
    equipment: [],
    conditions: [],
  },
  {
    key: 'split',
    title: 'Split the cured specimen',
    instruction: 'When it is cured through, take it out of the cup, split it from top to bottom and look at the faces.',
    cautions: ['A blade slips on stones: cut away from the hand, with gloves.'],
    events: ['start'],
    eventLabels: { start: 'Split' },
    readings: [...readingsOf('split'), observation],
    equipment: [],
    conditions: [],
  },
]

const verdict = { key: 'verdict', label: 'Compatibility in the cup' }
const classes = [
  { key: 'pass', label: 'Pass' },
  { key: 'fail', label: 'Fail' },
]

/** Pass where no more faults were seen than the edition lets pass: mixing, coating, segregation, split face. */
function verdictOf(readings: readonly ObservedReading[], setup: EvaluationSetup): ComputedChoice {
  const work = createCalculation()
  const findings: string[] = []
  for (const { step, key, label, seen } of looks) {
    const reading = readingAt(readings, step, key)
    const found = seen.find((one) => one.key === reading.value)
    if (!found) throw new Error(`${step}/${key} was read as “${reading.value}”, which is none of its choices.`)
    const words = `${label}: ${found.label.charAt(0).toLowerCase()}${found.label.slice(1)}`
    // The reading is no number: what enters is the fault that it counts as.
    work.input(
      { symbol: key, name: words, unit: 'count', source: 'as seen; a fault counts 1' },
      found.weight === 'fault' ? '1' : '0',
      { kind: 'reading', id: reading.id, key },
    )
    if (found.weight === 'weak') findings.push(`${words}.`)
  }
  const most = takeParameter(work, 'most', setup, 'faults-most')
  const faults = work.sum({ symbol: 'faults', name: 'Faults', unit: 'count', source }, ...looks.map(({ key }) => key))
  return { ...verdict, choice: faults.lte(most) ? 'pass' : 'fail', calculation: work.calculation(), findings }
}

/** Verdict of the cup test, by eye: mixing, coating, segregation and the split specimen, ISSA TB-115. */
export const compatibilityCup: MethodDeclaration = {
  key: 'compatibility-cup',
  name: 'Compatibility in the cup',
  shortName: 'Cup',
  answers: [{ property: 'compatibility-cup', result: 'verdict', passes: ['pass'] }],
  place: 'panel',
  madeFrom: 'batch',
  portionParameter: 'cup-aggregate',
  form: 'cup',
  computation: 1,
  steps,
  windows: [],
  editions: [edition],
  resultOfRecord: 'verdict',
  results: [
    {
      ...verdict,
      displayDecimals: 0,
      choices: classes,
      reporting: { words: 'Pass or fail, with what was seen of mixing, coating, segregation and split face', source },
    },
  ],
  evaluate: (readings, setup) =>
    evaluateFormulas(steps, readings, [{ keys: [verdict.key], compute: () => [verdictOf(readings, setup)] }]),
}
