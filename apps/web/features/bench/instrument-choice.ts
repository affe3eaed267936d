import type { TestView } from '@curebook/contract/bench'
import type { InstrumentKind, ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { compareDigits, convertDigits } from '@curebook/trade/quantity/digit-conversion'
import { isUnit, units } from '@curebook/trade/quantity/unit-table'
import type { ReadingContext } from '@curebook/trade/procedure/reading-check'

export type BenchInstrument = TestView['instruments'][number]
/** What it takes to choose one of several, wherever they are listed. */
export type Choosable = Pick<BenchInstrument, 'id' | 'code' | 'name' | 'fault'>

/** Machines whose own factor makes the result: without naming one the act says nothing. */
const machines: readonly InstrumentKind[] = ['wet-track-machine', 'loaded-wheel']

/** The instruments a step's act may name, and whether one must be named. */
export function instrumentsOfStep(step: StepDeclaration, instruments: readonly BenchInstrument[]) {
  const kinds = step.equipment.filter((kind) => kind !== 'timer' && kind !== 'thermometer')
  const fitting = instruments.filter(({ kind }) => (kinds as readonly string[]).includes(kind))
  return { fitting, needed: kinds.some((kind) => machines.includes(kind)) }
}

/** The instruments that can show a reading: the declared kind, else what stands in the step's equipment. */
export function instrumentsOfReading(reading: ReadingDeclaration, instruments: readonly BenchInstrument[]) {
  return reading.instrument === undefined ? [] : instruments.filter(({ kind }) => kind === reading.instrument)
}

/** The one that is meant unless another is chosen: the one used last on this device, or the only one. */
export function usualInstrument<One extends Choosable>(
  fitting: readonly One[],
  remembered: string | null,
): One | undefined {
  return fitting.find(({ id }) => id === remembered) ?? (fitting.length === 1 ? fitting[0] : undefined)
}

/** What surrounds a reading when it is typed: instrument, target and tolerance of the edition. */
export function contextOf(
  reading: ReadingDeclaration,
  instrument: BenchInstrument | undefined,
  {
    targets,
    parameters,
  }: {
    readonly targets: Readonly<Record<string, string>>
    readonly parameters: Readonly<Record<string, { value: string; unit: string }>>
  },
): ReadingContext {
  const { unit } = reading
  const capacity =
    instrument?.capacity && instrument.capacityUnit
      ? { value: instrument.capacity, unit: instrument.capacityUnit }
      : undefined
  const resolution = instrument?.resolution ? inUnit(instrument.resolution, instrument.capacityUnit, unit) : undefined
  const target = targets[reading.key] ?? (reading.target === undefined ? undefined : targets[reading.target.component])
  const tolerance = reading.target === undefined ? undefined : parameters[reading.target.toleranceParameter]
  return {
    ...(capacity === undefined ? {} : { capacity }),
    ...(resolution === undefined ? {} : { resolution }),
    ...(target === undefined ? {} : { target }),
    ...(tolerance === undefined ? {} : { tolerance: { value: tolerance.value, unit: tolerance.unit } }),
  }
}

/** Where no instrument is named: what none of those at hand can show is refused, and no step is known. */
export function ablest(fitting: readonly BenchInstrument[], unit: string | undefined): BenchInstrument | undefined {
  const capacityOf = ({ capacity, capacityUnit }: BenchInstrument) =>
    capacity === null ? undefined : inUnit(capacity, capacityUnit, unit)
  if (fitting.length === 0 || fitting.some((one) => capacityOf(one) === undefined)) return undefined
  const most = fitting.reduce((best, one) =>
    compareDigits(capacityOf(one) ?? '0', capacityOf(best) ?? '0') > 0 ? one : best,
  )
  return { ...most, resolution: null }
}

function inUnit(digits: string, from: string | null, to: string | undefined): string | undefined {
  if (from === null || to === undefined || from === to) return digits
  if (!isUnit(from) || !isUnit(to) || units[from].dimension !== units[to].dimension) return undefined
  return convertDigits(digits, from, to)
}
