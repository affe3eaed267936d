import type { EditionParameters, StepDeclaration } from './declaration.ts'

/** How long a machine runs at a step, for a clock beside it; the machine's own counter or timer is what counts. */
export type RunLength = {
  readonly seconds: number
  /** Cycles of the whole run and in a minute, where the run is counted. */
  readonly cycles: { readonly total: number; readonly perMinute: number } | null
}

/** The length of a step's run out of the edition: its seconds, or its cycles by their rate. Null for a step without a run. */
export function runLengthOf(
  { runSecondsParameter, runCycles }: Pick<StepDeclaration, 'runSecondsParameter' | 'runCycles'>,
  parameters: EditionParameters,
): RunLength | null {
  const valueOf = (key: string | undefined) => (key === undefined ? Number.NaN : Number(parameters[key]?.value))
  if (runCycles) {
    const [total, perMinute] = [valueOf(runCycles.totalParameter), valueOf(runCycles.perMinuteParameter)]
    if (!(total > 0) || !(perMinute > 0)) return null
    // 60 seconds a minute, exactly.
    return { seconds: (total / perMinute) * 60, cycles: { total, perMinute } }
  }
  const seconds = valueOf(runSecondsParameter)
  return seconds > 0 ? { seconds, cycles: null } : null
}

/** What has passed of a run, in whole seconds and cycles; none is left only when the whole has passed. */
export function runPassed({ seconds, cycles }: RunLength, elapsedMs: number) {
  const passed = Math.max(0, Math.floor(elapsedMs / 1000)) // ms a second, exactly
  return {
    seconds: passed,
    left: Math.max(0, Math.ceil(seconds - passed)),
    over: Math.max(0, Math.floor(passed - seconds)),
    // 60 seconds a minute, exactly.
    cycles: cycles && Math.min(cycles.total, Math.floor((passed / 60) * cycles.perMinute)),
  }
}
