import { decimal } from '../quantity/decimal.ts'
import { isUnit } from '../quantity/unit-table.ts'
import { convert } from '../quantity/units.ts'
import type { EditionParameters, MethodDeclaration, WindowDeclaration } from './declaration.ts'
import { actsOf, progressOf, type Act, type RecordedEvent, type TakenReading } from './progress.ts'

export type TimedAct = Act & { readonly at: string }

/**
 * - `pending`: the act that starts it is not there, or the window has not opened
 * - `open`: the act may be done now
 * - `met`, `early`, `late`: the act is done, inside or outside
 * - `missed`: the window has closed and the act is not done
 */
export type WindowState = 'pending' | 'open' | 'met' | 'early' | 'late' | 'missed'

export type JudgedWindow = {
  readonly key: string
  readonly label: string
  readonly step: string
  readonly act: Act['act']
  readonly after: Act
  /** ISO 8601; null while the first act is not there, or where the edition leaves that side open. */
  readonly opensAt: string | null
  readonly closesAt: string | null
  readonly state: WindowState
  /**
   * Seconds inside the nearer end; negative: seconds outside. Measured at the act, or now while it is not done.
   * Null while nothing can be measured.
   */
  readonly marginSeconds: number | null
  /** What being late means here. Early is always a miss. */
  readonly late: 'miss' | 'finding'
}

/** A window's parameter that is not a duration, or is not in the edition. */
export class EditionError extends Error {
  override readonly name = 'EditionError'
}

/** The windows that an edition judges by: an optional one whose parameters it does not hold is none of them. */
export function windowsOf(
  { windows }: Pick<MethodDeclaration, 'windows'>,
  parameters: EditionParameters,
): readonly WindowDeclaration[] {
  const isHeld = (key: string | undefined) => key === undefined || parameters[key] !== undefined
  return windows.filter(
    ({ optional, earliestParameter, latestParameter }) =>
      !optional || (isHeld(earliestParameter) && isHeld(latestParameter)),
  )
}

/**
 * Judges every window of a method by event times. Both ends belong to the window. One of an act that need not be done is left
 * out once it has closed without it.
 * @param at the moment to judge undone acts by, ISO 8601
 * @throws EditionError when the edition lacks a duration that a window names
 */
export function judgeWindows(
  method: Pick<MethodDeclaration, 'windows'>,
  parameters: EditionParameters,
  acts: readonly TimedAct[],
  at: string,
): readonly JudgedWindow[] {
  return windowsOf(method, parameters)
    .map((window) => ({ window, judged: judge(window, parameters, acts, Date.parse(at)) }))
    .flatMap(({ window, judged }) => (window.optional && judged.state === 'missed' ? [] : [judged]))
}

export type DueAct = Act & {
  /** From when the act may be done; null: at once. */
  readonly opensAt: string | null
  /** By when it must be done, or a later act whose window already runs; null: no end. */
  readonly closesAt: string | null
  /** Key of the window that closes first. */
  readonly window: string | null
}

/**
 * The next act of a test and the times that bound it. A window of a later act that already runs (weigh within two hours of
 * leaving the oven, while the disc still cools) closes the acts before it too.
 * @throws EditionError when the edition lacks a duration that a window names
 */
export function dueOf(
  method: Pick<MethodDeclaration, 'steps' | 'windows'>,
  parameters: EditionParameters,
  events: readonly RecordedEvent[],
  readings: readonly TakenReading[],
): DueAct | null {
  const { next } = progressOf(method, events, readings)
  if (!next) return null
  const acts = actsOf(method, events, readings)
  const running = method.windows
    .filter((window) => !window.optional && timeOf(acts, window) === null)
    .map((window) => ({ window, ...bounds(window, parameters, acts) }))
  const opens = running
    .filter(({ window }) => isSame(window, next))
    .flatMap(({ opens }) => (opens === null ? [] : [opens]))
  const closing = running
    .flatMap(({ window, closes }) => (closes === null ? [] : [{ key: window.key, closes }]))
    .sort((a, b) => a.closes - b.closes)
    .at(0)
  return {
    ...next,
    opensAt: opens.length > 0 ? iso(Math.max(...opens)) : null,
    closesAt: closing ? iso(closing.closes) : null,
    window: closing?.key ?? null,
  }
}

/**
 * A duration of an edition in whole milliseconds.
 * @throws EditionError when the key is missing or its unit is no unit of time
 */
export function durationOf(parameters: EditionParameters, key: string): number {
  const parameter = parameters[key]
  if (!parameter) throw new EditionError(`The edition holds no “${key}”, which a window of the method needs.`)
  if (!isUnit(parameter.unit)) throw new EditionError(`“${key}” is in ${parameter.unit}, which is not a unit of time.`)
  // 1000 ms a second, exactly.
  return convert(decimal(parameter.value), parameter.unit, 's').times(1000).toNumber()
}

function judge(
  window: WindowDeclaration,
  parameters: EditionParameters,
  acts: readonly TimedAct[],
  now: number,
): JudgedWindow {
  const { started, opens, closes } = bounds(window, parameters, acts)
  const done = started === null ? null : timeOf(acts, window)
  const measured = done ?? now
  const margins = [opens === null ? [] : [measured - opens], closes === null ? [] : [closes - measured]].flat()
  const early = opens !== null && measured < opens
  const late = closes !== null && measured > closes
  const stateDone = early ? 'early' : late ? 'late' : 'met'
  const stateOpen = early ? 'pending' : late ? 'missed' : 'open'
  return {
    key: window.key,
    label: window.label,
    step: window.step,
    act: window.act,
    after: window.after,
    opensAt: opens === null ? null : iso(opens),
    closesAt: closes === null ? null : iso(closes),
    state: started === null ? 'pending' : done === null ? stateOpen : stateDone,
    // 1000 ms a second, exactly.
    marginSeconds: margins.length > 0 ? Math.floor(Math.min(...margins) / 1000) : null,
    late: window.late,
  }
}

function bounds(window: WindowDeclaration, parameters: EditionParameters, acts: readonly TimedAct[]) {
  const started = timeOf(acts, window.after)
  const from = (key: string | undefined) =>
    started === null || key === undefined ? null : started + durationOf(parameters, key)
  return { started, opens: from(window.earliestParameter), closes: from(window.latestParameter) }
}

function timeOf(acts: readonly TimedAct[], act: Act): number | null {
  const times = acts.filter((other) => isSame(other, act)).map((other) => Date.parse(other.at))
  return times.length > 0 ? Math.max(...times) : null
}

function isSame(one: Act, other: Act): boolean {
  return one.step === other.step && one.act === other.act
}

function iso(milliseconds: number): string {
  return new Date(milliseconds).toISOString()
}
