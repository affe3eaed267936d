import type { ReadingDeclaration, StepDeclaration, WindowDeclaration } from '../procedure/declaration.ts'
import { cautions } from './cautions.ts'
import { practiceSource } from './edition-parameter.ts'

/** Pills of one set. ISSA TB-144, from memory, unverified. */
export const pills = [1, 2, 3, 4] as const

const component = (
  key: string,
  label: string,
  span?: { readonly from: string; readonly to: string },
): ReadingDeclaration => ({
  key,
  label,
  kind: 'number',
  unit: 'g',
  resolution: '0.01',
  instrument: 'balance',
  ...(span ? { plausible: { ...span, source: practiceSource } } : { optional: true }),
})

const pillMass = (label: string, from: string, to: string): ReadingDeclaration => ({
  key: 'mass',
  label,
  kind: 'number',
  unit: 'g',
  resolution: '0.01',
  instrument: 'balance',
  plausible: { from, to, source: practiceSource },
  repeats: pills.length,
})

const weighing = (
  step: Pick<StepDeclaration, 'key' | 'title' | 'instruction'> & { readonly reading: ReadingDeclaration },
): StepDeclaration => ({
  key: step.key,
  title: step.title,
  instruction: step.instruction,
  cautions: [],
  events: [],
  readings: [step.reading],
  equipment: ['balance'],
  conditions: [],
})

const surfaceDry = 'Blot each pill surface dry, all alike, and weigh it at once in the order of their numbers.'

/** The set of four pills from the fines to the look at what is still coated. */
export const compatibilitySteps: readonly StepDeclaration[] = [
  {
    key: 'weigh-components',
    title: 'Weigh fines, binder and the rest',
    instruction:
      'Weigh the dry fines of the design’s aggregate, graded and without anything coarser, and the filler, water, additive and emulsion that go with them. The emulsion decides the binder of the pills.',
    cautions: [cautions.dust, cautions.filler, cautions.additive, cautions.emulsion],
    events: [],
    readings: [
      component('fines', 'Dry fines', { from: '190', to: '210' }),
      component('emulsion', 'Emulsion', { from: '15', to: '40' }),
      component('filler', 'Mineral filler'),
      component('water', 'Added water'),
      component('additive', 'Set-control additive'),
    ],
    equipment: ['balance'],
    conditions: [
      { label: 'Coarsest particle', targetParameter: 'largest-particle' },
      { label: 'Fines', targetParameter: 'fines' },
    ],
  },
  {
    key: 'cure',
    title: 'Mix and cure',
    instruction: 'Mix, spread out thin and cure through in the oven. Confirm when it goes in.',
    cautions: [cautions.emulsion, cautions.oven, cautions.microwave],
    events: ['start', 'end'],
    eventLabels: { start: 'In the oven', end: 'Cured' },
    readings: [],
    equipment: ['oven'],
    conditions: [
      { label: 'Oven', targetParameter: 'cure-temperature', toleranceParameter: 'cure-temperature-tolerance' },
    ],
  },
  {
    key: 'press',
    title: 'Press four pills',
    instruction: 'Press the mix warm, one charge after the other, and number the pills.',
    cautions: [cautions.press, cautions.alone],
    events: ['end'],
    eventLabels: { end: 'Four pills pressed' },
    readings: [
      {
        key: 'height',
        label: 'Height of pill',
        kind: 'number',
        unit: 'mm',
        resolution: '0.1',
        plausible: { from: '25', to: '30', source: 'ISSA TB-144, from memory, unverified' },
        repeats: pills.length,
        optional: true,
      },
    ],
    equipment: [],
    conditions: [
      { label: 'Charge of one pill', targetParameter: 'pill-charge' },
      { label: 'Diameter of the mould', targetParameter: 'pill-diameter' },
      { label: 'Load', targetParameter: 'press-load' },
      { label: 'Load held for', targetParameter: 'press-hold' },
    ],
  },
  weighing({
    key: 'weigh-dry',
    title: 'Weigh dry',
    instruction: 'Weigh each pill, cold and dry, in the order of their numbers.',
    reading: pillMass('Pill, dry', '38', '42'),
  }),
  {
    key: 'soak',
    title: 'Soak',
    instruction: 'Lay the pills under water.',
    cautions: [],
    events: ['start'],
    eventLabels: { start: 'In the bath' },
    readings: [],
    equipment: ['bath'],
    conditions: [
      { label: 'Bath', targetParameter: 'soak-temperature', toleranceParameter: 'soak-temperature-tolerance' },
    ],
    needs: ['weigh-dry'],
  },
  weighing({
    key: 'weigh-wet',
    title: 'Weigh after the soak',
    instruction: surfaceDry,
    reading: pillMass('Pill, soaked', '38', '46'),
  }),
  {
    key: 'tumble',
    title: 'Tumble in water',
    instruction: 'Put each pill into its tube with water and turn the tubes end over end.',
    cautions: [cautions.tumbler, cautions.alone],
    events: ['start', 'end'],
    eventLabels: { start: 'Tubes turning', end: 'Tubes stopped' },
    readings: [],
    equipment: [],
    conditions: [
      { label: 'Water in a tube', targetParameter: 'tube-water' },
      { label: 'Turns', targetParameter: 'tumble-turns' },
    ],
    runCycles: { totalParameter: 'tumble-turns', perMinuteParameter: 'tumble-rate' },
    needs: ['weigh-wet'],
  },
  weighing({
    key: 'weigh-tumbled',
    title: 'Weigh after tumbling',
    instruction: surfaceDry,
    reading: pillMass('Pill, tumbled', '33', '46'),
  }),
  {
    key: 'boil',
    title: 'Boil',
    instruction: 'Hang the pills in their basket in water that boils already, clear of the bottom.',
    cautions: [cautions.boiling, cautions.floatingBinder],
    events: ['start', 'end'],
    eventLabels: { start: 'In boiling water', end: 'Out of the water' },
    readings: [],
    equipment: [],
    conditions: [{ label: 'Boiling', targetParameter: 'boil' }],
    runSecondsParameter: 'boil-seconds',
    needs: ['weigh-tumbled'],
  },
  weighing({
    key: 'weigh-boiled',
    title: 'Weigh the largest piece',
    instruction:
      'When a pill has cooled, blot what is left in one piece surface dry and weigh it alone. Nothing left in one piece is 0.',
    reading: pillMass('Largest piece, boiled', '0', '46'),
  }),
  {
    key: 'dry',
    title: 'Let it dry',
    instruction: 'Lay the pieces out on paper to dry, each pill by itself.',
    cautions: [],
    events: ['start'],
    eventLabels: { start: 'Laid out' },
    readings: [],
    equipment: [],
    conditions: [],
  },
  {
    key: 'look',
    title: 'Look at what is still coated',
    instruction: 'Judge of each pill how much of the surface is still coated.',
    cautions: [],
    events: [],
    readings: [
      {
        key: 'coated',
        label: 'Surface still coated',
        kind: 'number',
        unit: '%',
        resolution: '1',
        repeats: pills.length,
      },
      { key: 'observation', label: 'What was seen', kind: 'text', optional: true },
    ],
    equipment: [],
    conditions: [],
  },
]

/** Soak, tumbling, boiling and drying. */
export const compatibilityWindows: readonly WindowDeclaration[] = [
  {
    key: 'soak',
    label: 'Soak',
    step: 'weigh-wet',
    act: 'reading',
    after: { step: 'soak', act: 'start' },
    earliestParameter: 'soak-earliest',
    latestParameter: 'soak-latest',
    late: 'finding',
  },
  {
    key: 'tumble',
    label: 'Tumbling',
    step: 'tumble',
    act: 'end',
    after: { step: 'tumble', act: 'start' },
    earliestParameter: 'tumble-earliest',
    latestParameter: 'tumble-latest',
    late: 'finding',
  },
  {
    key: 'boil',
    label: 'Boiling',
    step: 'boil',
    act: 'end',
    after: { step: 'boil', act: 'start' },
    earliestParameter: 'boil-earliest',
    latestParameter: 'boil-latest',
    late: 'finding',
  },
  {
    key: 'dry',
    label: 'Drying before the look',
    step: 'look',
    act: 'reading',
    after: { step: 'dry', act: 'start' },
    earliestParameter: 'dry-earliest',
    late: 'finding',
  },
]
