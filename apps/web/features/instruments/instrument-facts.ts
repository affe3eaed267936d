import type { Calibration, Instrument, InstrumentFactor } from '@curebook/contract/instruments'

export const instrumentKinds = [
  'balance',
  'wet-track-machine',
  'loaded-wheel',
  'cohesion-tester',
  'oven',
  'bath',
  'thermometer',
  'timer',
] as const satisfies readonly Instrument['kind'][]

export const factorUnits = ['g/m²', 'g/ft²'] as const

/** Which factor a machine's record holds; other instruments hold none. */
export function factorKeyOf({ kind }: Pick<Instrument, 'kind'>): 'area' | 'frame' | undefined {
  return kind === 'wet-track-machine' ? 'area' : kind === 'loaded-wheel' ? 'frame' : undefined
}

/** The calibration that counts: the one done last. */
export function latestCalibration(calibrations: readonly Calibration[]): Calibration | undefined {
  return calibrations.toSorted((one, other) => one.doneOn.localeCompare(other.doneOn)).at(-1)
}

/** How the calibration of an instrument stands, as one word of the catalogue. */
export function calibrationState({
  state,
  calibrations,
}: Pick<Instrument, 'state' | 'calibrations'>): 'in-service' | 'none' | 'due' | 'failed' | 'out' {
  const latest = latestCalibration(calibrations)
  if (state === 'out') return latest?.passed === false ? 'failed' : 'out'
  if (state === 'due') return 'due'
  return latest === undefined ? 'none' : 'in-service'
}

/** Each unit with the factor that holds in it now, if any. Units never fill in for each other. */
export function factorsByUnit(factors: readonly InstrumentFactor[]) {
  return factorUnits.map((unit) => ({
    unit,
    current: factors.find((factor) => factor.unit === unit && factor.current),
    earlier: factors.filter((factor) => factor.unit === unit && !factor.current),
  }))
}
