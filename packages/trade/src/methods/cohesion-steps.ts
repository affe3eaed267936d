import type { ReadingDeclaration, StepDeclaration, WindowDeclaration } from '../procedure/declaration.ts'
import { cautions } from './cautions.ts'
import { practiceSource } from './edition-parameter.ts'

/**
 * Minutes after casting at which a ring of the series is twisted. The two that limits are written for must be. `known`: by
 * ISSA TB-139, from memory, unverified, or common practice, no source, at the full hours between.
 */
export const twists = [
  { minute: '20', required: false, known: 'remembered' },
  { minute: '30', required: true, known: 'remembered' },
  { minute: '60', required: true, known: 'remembered' },
  { minute: '90', required: false, known: 'remembered' },
  { minute: '120', required: false, known: 'practised' },
  { minute: '150', required: false, known: 'remembered' },
  { minute: '180', required: false, known: 'practised' },
  { minute: '210', required: false, known: 'remembered' },
  { minute: '240', required: false, known: 'practised' },
  { minute: '270', required: false, known: 'remembered' },
] as const

export const twistStep = (minute: string): string => `twist-${minute}`

/** How a ring gives way under the foot, from the weakest to the strongest; letters as on the worksheets of ISSA TB-139. */
export const ringBreaks = [
  { key: 'soft', label: 'Soft: the foot sinks in or smears, nothing breaks yet' },
  { key: 'n', label: 'N, normal: the ring breaks through' },
  { key: 'ns', label: 'NS, near spin: one radial crack only' },
  { key: 's', label: 'S, spin: the foot turns, no crack, some stones moved' },
  { key: 'ss', label: 'SS, solid spin: the foot turns, nothing comes loose' },
] as const
/** Breaks that some specifications take for the torque of early traffic. */
export const spins: readonly string[] = ['ns', 's', 'ss']

/** How torque is read: kg·cm by a hand tester of the American bulletins, N·m by the European standard. */
export type TorqueScale = { readonly unit: 'kg·cm' | 'N·m'; readonly resolution: string; readonly askedAbove: string }

const check: StepDeclaration = {
  key: 'check',
  title: 'Check the tester and the room',
  instruction:
    'Set the air pressure so that the foot presses as the edition asks, and note gauge and foot apart: they differ with the cylinder. A worn or hard foot is changed. Twist on the check surfaces when the laboratory’s own plan says so.',
  cautions: [cautions.foot],
  events: [],
  readings: [
    {
      key: 'room-temperature',
      label: 'Temperature at the rings',
      kind: 'number',
      unit: '°C',
      resolution: '0.1',
      instrument: 'thermometer',
      plausible: { from: '18', to: '28', source: practiceSource },
    },
    {
      key: 'humidity',
      label: 'Relative humidity',
      kind: 'number',
      unit: '%',
      resolution: '1',
      plausible: { from: '20', to: '95', source: practiceSource },
      optional: true,
    },
    {
      key: 'foot-pressure',
      label: 'Pressure under the foot',
      kind: 'number',
      unit: 'kPa',
      resolution: '0.1',
      plausible: { from: '150', to: '250', source: practiceSource },
      optional: true,
    },
    {
      key: 'gauge-pressure',
      label: 'Pressure on the gauge',
      kind: 'number',
      unit: 'kPa',
      resolution: '1',
      optional: true,
    },
  ],
  equipment: ['cohesion-tester', 'thermometer'],
  conditions: [
    { label: 'Foot', targetParameter: 'foot-pressure', toleranceParameter: 'foot-pressure-tolerance' },
    { label: 'Foot, hardness of the rubber, at least', targetParameter: 'foot-hardness-least' },
    { label: 'Foot, hardness of the rubber, at most', targetParameter: 'foot-hardness-most' },
    { label: 'Room', targetParameter: 'room-temperature', toleranceParameter: 'room-temperature-tolerance' },
    { label: 'Relative humidity', targetParameter: 'humidity' },
  ],
}

const cast: StepDeclaration = {
  key: 'cast',
  title: 'Cast the rings',
  instruction:
    'Cast one ring for each time on its square of felt, strike it off in one pass and mark it. Confirm when the first is cast: the minute of each twist is counted from the casting of its own ring.',
  cautions: [cautions.emulsion, cautions.filler],
  events: ['start'],
  eventLabels: { start: 'First ring cast' },
  readings: [{ key: 'observation', label: 'What was seen', kind: 'text', optional: true }],
  equipment: [],
  conditions: [
    { label: 'Ring, inside diameter', targetParameter: 'ring-diameter' },
    { label: 'Ring, height', targetParameter: 'ring-height' },
  ],
}

function twist({ minute, required }: (typeof twists)[number], scale: TorqueScale): StepDeclaration {
  const own = (reading: ReadingDeclaration): ReadingDeclaration => (required ? reading : { ...reading, optional: true })
  return {
    key: twistStep(minute),
    title: `Twist at ${minute} min`,
    instruction:
      'Lower the foot onto a ring that was not touched, let it settle and twist by hand in one even turn. Read torque and break, and wipe the foot. A ring is twisted once.' +
      (required ? '' : ' This time is for a ring that is kept for it.'),
    cautions: [cautions.foot],
    events: [],
    readings: [
      own({
        key: 'minute',
        label: 'Age of the ring',
        kind: 'number',
        unit: 'min',
        resolution: '0.5',
        instrument: 'timer',
        since: { step: 'cast', act: 'start' },
        // Two minutes either side: common practice.
        plausible: { from: String(Number(minute) - 2), to: String(Number(minute) + 2), source: practiceSource },
      }),
      own({
        key: 'torque',
        label: 'Torque',
        kind: 'number',
        unit: scale.unit,
        resolution: scale.resolution,
        instrument: 'cohesion-tester',
        plausible: { from: '0', to: scale.askedAbove, source: practiceSource },
      }),
      own({ key: 'break', label: 'Break', kind: 'choice', choices: ringBreaks }),
    ],
    equipment: ['cohesion-tester', 'timer'],
    conditions: [
      { label: 'Settling before the twist, at least', targetParameter: 'settle-least' },
      { label: 'Settling before the twist, at most', targetParameter: 'settle-most' },
      { label: 'Arc of the twist, at least', targetParameter: 'twist-arc-least' },
      { label: 'Arc of the twist, at most', targetParameter: 'twist-arc-most' },
      { label: 'Time of the twist, at least', targetParameter: 'twist-time-least' },
      { label: 'Time of the twist, at most', targetParameter: 'twist-time-most' },
    ],
    needs: ['cast'],
  }
}

/** The tester checked, the rings cast, one twist for each time; those beside 30 and 60 min are taken where they are wanted. */
export function cohesionSteps(scale: TorqueScale): readonly StepDeclaration[] {
  return [check, cast, ...twists.map((one) => twist(one, scale))]
}

/** A twist comes at its minute; later ones than asked for are told, since the ring that was waiting is the only one. */
export const cohesionWindows: readonly WindowDeclaration[] = twists.map(({ minute, required }) => ({
  key: twistStep(minute),
  label: `Casting to the twist at ${minute} min`,
  step: twistStep(minute),
  act: 'reading',
  after: { step: 'cast', act: 'start' },
  earliestParameter: `twist-${minute}-earliest`,
  latestParameter: `twist-${minute}-latest`,
  late: 'finding',
  ...(required ? {} : { optional: true }),
}))
