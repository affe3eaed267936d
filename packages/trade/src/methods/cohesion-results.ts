import { createCalculation, type CalculationBuilder } from '../procedure/calculation-builder.ts'
import type {
  ComputedChoice,
  ComputedResult,
  EvaluationSetup,
  ObservedReading,
  ResultDeclaration,
} from '../procedure/declaration.ts'
import { parameterOf, readingAt, resultOf, type Formula } from '../procedure/evaluation.ts'
import { decimal, type Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { spins, twists, twistStep } from './cohesion-steps.ts'
import { firstCrossing, type SeriesPoint } from './first-crossing.ts'
import { offTarget } from './off-target.ts'

/** What differs between the bulletins and the European standard. */
export type CohesionText = { readonly unit: 'kg·cm' | 'N·m'; readonly decimals: number; readonly source: string }

const nearestFive = {
  words: 'to the nearest 5 min',
  source: 'ISSA TB-139, unsure of the value, from memory, unverified',
}

/** Set at 30 min and early traffic at 60 min: each with the torque asked for and the classes it parts. */
const marks = {
  '30': {
    torque: 'set-torque',
    time: { key: 'set-time', label: 'Set time', displayDecimals: 1 },
    choice: {
      key: 'set-class',
      label: 'Set',
      classes: [
        { key: 'quick-set', label: 'Quick-set' },
        { key: 'slow-set', label: 'Slow-set' },
      ],
    },
  },
  '60': {
    torque: 'traffic-torque',
    time: { key: 'traffic-time', label: 'Early rolling traffic time', displayDecimals: 1 },
    choice: {
      key: 'traffic-class',
      label: 'Traffic',
      classes: [
        { key: 'quick-traffic', label: 'Quick-traffic' },
        { key: 'slow-traffic', label: 'Slow-traffic' },
      ],
    },
  },
} as const
type Mark = keyof typeof marks

const cohesionAt = (minute: Mark, decimals: number) => ({
  key: `cohesion-${minute}-min`,
  label: `Cohesion at ${minute} min`,
  displayDecimals: decimals,
})

/** The results of a cohesion series, in words. */
export function cohesionResults({ unit, decimals }: CohesionText): readonly ResultDeclaration[] {
  // The minutes that ISSA A143 (2010) has limits for.
  const each = (['30', '60'] as const).map((minute) => ({ minute, ...marks[minute] }))
  return [
    ...each.map(({ minute }) => ({ ...cohesionAt(minute, decimals), unit })),
    ...each.map(({ time }) => ({ ...time, unit: 'min', reporting: nearestFive })),
    ...each.map(({ choice: { key, label, classes } }) => ({ key, label, displayDecimals: 0, choices: classes })),
  ]
}

/** A ring that was twisted: minutes since its casting against torque. */
type Twist = SeriesPoint & { readonly minute: ObservedReading; readonly torque: ObservedReading }

/**
 * Torque at 30 and 60 min as read; the minute at which the torque first reaches that of set and of early traffic, between
 * the two neighbouring twists; quick or slow by the torque at 30 and 60 min.
 */
export function cohesionFormulas(
  text: CohesionText,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): readonly Formula[] {
  // The minutes that ISSA A143 (2010) has limits for.
  const minutes = ['30', '60'] as const
  return [
    ...minutes.map((minute): Formula => {
      const { key } = cohesionAt(minute, text.decimals)
      return { keys: [key], compute: () => [cohesion(minute, text, readings, setup)] }
    }),
    ...minutes.map((minute): Formula => ({
      keys: [marks[minute].time.key],
      compute: () => [timeOf(minute, text, readings, setup)],
    })),
    ...minutes.map((minute): Formula => ({
      keys: [marks[minute].choice.key],
      compute: () => [classOf(minute, text, readings, setup)],
    })),
  ]
}

function takeTorque(
  work: CalculationBuilder,
  symbol: string,
  { unit }: CohesionText,
  reading: ObservedReading,
): Decimal {
  if (decimal(reading.value).lt(0))
    throw new MethodInputError('not-positive', `A torque cannot be less than 0 ${unit}: read it again.`, {
      torque: `${reading.value} ${unit}`,
    })
  const name = `Torque, ring of ${reading.step.replace('twist-', '')} min`
  return work.input({ symbol, name, unit, source: 'as read' }, reading.value, {
    kind: 'reading',
    id: reading.id,
    key: reading.key,
  })
}

function takeMinute(work: CalculationBuilder, symbol: string, reading: ObservedReading): Decimal {
  const name = `Minutes since its casting, ring of ${reading.step.replace('twist-', '')} min`
  return work.input({ symbol, name, unit: 'min', source: 'as read' }, reading.value, {
    kind: 'reading',
    id: reading.id,
    key: reading.key,
  })
}

function takeLimit(work: CalculationBuilder, key: string, { unit }: CohesionText, setup: EvaluationSetup): Decimal {
  const parameter = parameterOf(setup, key)
  if (parameter.unit !== unit)
    throw new MethodInputError('missing-setup', `“${parameter.label}” must stand in ${unit} in the edition.`, {
      [key]: `${parameter.value} ${parameter.unit}`,
    })
  return work.input({ symbol: 'C', name: parameter.label, unit, source: parameter.source }, parameter.value, {
    kind: 'parameter',
    key,
  })
}

function cohesion(
  minute: Mark,
  text: CohesionText,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): ComputedResult {
  const work = createCalculation()
  takeTorque(work, 'T', text, readingAt(readings, twistStep(minute), 'torque'))
  const findings = [
    ...offMinute(minute, readings, setup),
    ...roomAndFoot(readings, setup),
    // Told once, with the last number that a limit is written for: ISSA A143 (2010).
    ...(minute === '60' ? fallsOf(text, readings, setup) : []),
  ]
  return withFindings(resultOf(work.calculation(), cohesionAt(minute, text.decimals)), findings)
}

function timeOf(
  minute: Mark,
  text: CohesionText,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): ComputedResult {
  const { torque: key, time } = marks[minute]
  const { unit, source } = text
  const work = createCalculation()
  const asked = takeLimit(work, key, text, setup)
  const named = (point: Twist) => `${point.torque.value} ${unit} at ${point.minute.value} min`
  const crossing = firstCrossing(twistsOf(text, readings), asked, {
    startsAbove: (first) =>
      `The first ring gives ${named(first)} already: ${time.label.toLowerCase()} lies before it, and no earlier ring was twisted.`,
    staysBelow: (highest) =>
      `No ring reaches ${asked.toFixed()} ${unit}, the highest gives ${named(highest)}: ${time.label.toLowerCase()} lies later, twist another ring.`,
    samePlace: (one, other) =>
      `Two rings stand at ${one.minute.value} min, with ${one.torque.value} and ${other.torque.value} ${unit}: correct the minute of one.`,
  })
  const label = { symbol: 't', name: time.label, unit: 'min', source }
  if ('on' in crossing) {
    takeTorque(work, 'T', text, crossing.on.torque)
    takeMinute(work, 'm', crossing.on.minute)
    work.sum(label, 'm')
  } else {
    takeTorque(work, 'T1', text, crossing.before.torque)
    takeMinute(work, 'm1', crossing.before.minute)
    takeTorque(work, 'T2', text, crossing.after.torque)
    takeMinute(work, 'm2', crossing.after.minute)
    work.interpolate(label, 'C', 'T1', 'm1', 'T2', 'm2')
  }
  return withFindings(resultOf(work.calculation(), time), roomAndFoot(readings, setup))
}

function classOf(
  minute: Mark,
  text: CohesionText,
  readings: readonly ObservedReading[],
  setup: EvaluationSetup,
): ComputedChoice {
  const { torque: key, choice } = marks[minute]
  const [quick, slow] = choice.classes
  const work = createCalculation()
  const asked = takeLimit(work, key, text, setup)
  const torque = takeTorque(work, 'T', text, readingAt(readings, twistStep(minute), 'torque'))
  const name = `Torque at ${minute} min over what is asked for`
  work.difference({ symbol: 'over', name, unit: text.unit, source: text.source }, 'T', 'C')
  const spin = readings.find(({ step, key: read }) => step === twistStep(minute) && read === 'break')
  // Early traffic is judged at 60 min: ISSA A143 (2010).
  const counted =
    minute === '60' && torque.lt(asked) && spin !== undefined && spins.includes(spin.value)
      ? ['The ring spun at 60 min without the torque asked for: some specifications take a near spin for it.']
      : []
  return {
    key: choice.key,
    label: choice.label,
    choice: (torque.gte(asked) ? quick : slow).key,
    calculation: work.calculation(),
    ...(counted.length > 0 ? { findings: counted } : {}),
  }
}

/**
 * The rings that were twisted, with minute and torque.
 * @throws MethodInputError `missing-reading` for a torque without its minute or the other way round, `not-positive`
 */
function twistsOf({ unit }: CohesionText, readings: readonly ObservedReading[]): readonly Twist[] {
  return twists.flatMap(({ minute: planned }) => {
    const step = twistStep(planned)
    const at = (key: string) => readings.find((reading) => reading.step === step && reading.key === key)
    if (!at('minute') && !at('torque')) return []
    const minute = readingAt(readings, step, 'minute')
    const torque = readingAt(readings, step, 'torque')
    const point = { x: decimal(minute.value), y: decimal(torque.value), minute, torque }
    if (point.x.lte(0))
      throw new MethodInputError('not-positive', `The ring of ${planned} min was twisted after more than 0 min.`, {
        minute: `${minute.value} min`,
      })
    if (point.y.lt(0))
      throw new MethodInputError('not-positive', `A torque cannot be less than 0 ${unit}: read it again.`, {
        torque: `${torque.value} ${unit}`,
      })
    return [point]
  })
}

function offMinute(minute: Mark, readings: readonly ObservedReading[], { parameters }: EvaluationSetup) {
  const reading = readings.find(({ step, key }) => step === twistStep(minute) && key === 'minute')
  return offTarget(`The ring of ${minute} min was twisted at`, reading, parameters, `twist-${minute}`)
}

function roomAndFoot(readings: readonly ObservedReading[], { parameters }: EvaluationSetup): readonly string[] {
  const at = (key: string) => readings.find((reading) => reading.step === 'check' && reading.key === key)
  return [
    ...offTarget('The rings stood at', at('room-temperature'), parameters, 'room-temperature'),
    ...offTarget('The foot pressed with', at('foot-pressure'), parameters, 'foot-pressure'),
  ]
}

/** Rings that gave clearly less than the one before: torque rises while a mix cures. */
function fallsOf({ unit }: CohesionText, readings: readonly ObservedReading[], setup: EvaluationSetup) {
  const most = parameterOf(setup, 'torque-fall')
  const read = twists.flatMap(({ minute }) => {
    const torque = readings.find(({ step, key }) => step === twistStep(minute) && key === 'torque')
    return torque ? [{ minute, torque: decimal(torque.value) }] : []
  })
  return read.flatMap(({ minute, torque }, index) => {
    const before = read[index - 1]
    if (!before || before.torque.minus(torque).lte(most.value)) return []
    const [from, to] = [before.torque.toFixed(), torque.toFixed()]
    return [`The torque falls from ${from} ${unit} at ${before.minute} min to ${to} ${unit} at ${minute} min.`]
  })
}

function withFindings(result: ComputedResult, findings: readonly string[]): ComputedResult {
  return findings.length > 0 ? { ...result, findings } : result
}
