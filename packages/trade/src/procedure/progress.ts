import type { MethodDeclaration, ReadingDeclaration, StepDeclaration, StepEventKind } from './declaration.ts'

/** A confirmed start or end of a step; `at` is the event time, ISO 8601. */
export type RecordedEvent = { readonly step: string; readonly act: StepEventKind; readonly at: string }
export type ReadingSlot = { readonly step: string; readonly key: string; readonly repeat: number }
/** A reading that stands (not superseded); `at` is when it was observed, ISO 8601. */
export type TakenReading = ReadingSlot & { readonly at: string }
export type Act = { readonly step: string; readonly act: StepEventKind | 'reading' }

export type StepProgress = {
  readonly key: string
  /** `waiting`: nothing of it is there; `open`: begun; `done`: all events and required readings are there. */
  readonly state: 'waiting' | 'open' | 'done'
  /** The first act still to be done, or null when the step is done. */
  readonly next: Act | null
  /** Required readings still to be taken. */
  readonly missing: readonly ReadingSlot[]
  /** Steps without which this one must not begin, not yet done. */
  readonly lockedBy: readonly string[]
  /** It began before a step that it needs was done: that step's readings can no longer be what they should be. */
  readonly beganTooSoon: boolean
}

export type Progress = {
  readonly steps: readonly StepProgress[]
  /** The first step that is not done; null when all are. */
  readonly current: string | null
  /** The next open act of that step. */
  readonly next: Act | null
  readonly missing: readonly ReadingSlot[]
  readonly done: boolean
}

/**
 * Where a test stands. Events and readings may come in any order; the order of steps is advice, except where a step
 * names others in `needs`.
 */
export function progressOf(
  method: Pick<MethodDeclaration, 'steps'>,
  events: readonly RecordedEvent[],
  readings: readonly TakenReading[],
): Progress {
  const stateOf = new Map(method.steps.map((step) => [step.key, stepState(step, events, readings)]))
  const steps = method.steps.map((step): StepProgress => {
    const { state, next, missing, from } = stateOf.get(step.key)!
    const needed = (step.needs ?? []).map((key) => ({ key, ...stateOf.get(key)! }))
    const lockedBy = needed.filter((other) => other.state !== 'done').map(({ key }) => key)
    const beganTooSoon = from !== null && needed.some((other) => other.state !== 'done' || other.until! > from)
    return { key: step.key, state, next, missing, lockedBy, beganTooSoon }
  })
  const current = steps.find(({ state }) => state !== 'done')
  return {
    steps,
    current: current?.key ?? null,
    next: current?.next ?? null,
    missing: steps.flatMap(({ missing }) => missing),
    done: current === undefined,
  }
}

/** The readings that hold a step open, one slot for each repeat. */
export function requiredSlots(step: StepDeclaration): readonly ReadingSlot[] {
  return step.readings.filter((reading) => !reading.optional).flatMap((reading) => slotsOf(step.key, reading))
}

/** A slot as `step/key/repeat`. */
export function slotName({ step, key, repeat }: ReadingSlot): string {
  return `${step}/${key}/${repeat}`
}

/**
 * The acts of a test with their times, for windows: its events, and for a step whose required readings are all there
 * the time of the last of them as act `reading`; of a step that requires none, the last of those that were taken.
 */
export function actsOf(
  method: Pick<MethodDeclaration, 'steps'>,
  events: readonly RecordedEvent[],
  readings: readonly TakenReading[],
): readonly (Act & { readonly at: string })[] {
  const read = method.steps.flatMap((step) => {
    const required = new Set(requiredSlots(step).map(slotName))
    const taken = readings.filter((reading) =>
      required.size === 0 ? reading.step === step.key : required.has(slotName(reading)),
    )
    if (taken.length === 0 || new Set(taken.map(slotName)).size < required.size) return []
    const last = taken.reduce((latest, reading) => (Date.parse(reading.at) > Date.parse(latest.at) ? reading : latest))
    return [{ step: step.key, act: 'reading', at: last.at } as const]
  })
  return [...events, ...read]
}

function slotsOf(step: string, { key, repeats = 1 }: ReadingDeclaration): readonly ReadingSlot[] {
  return Array.from({ length: repeats }, (_, index) => ({ step, key, repeat: index + 1 }))
}

function stepState(step: StepDeclaration, events: readonly RecordedEvent[], readings: readonly TakenReading[]) {
  const ownEvents = events.filter((event) => event.step === step.key)
  const ownReadings = readings.filter((reading) => reading.step === step.key)
  const taken = new Set(ownReadings.map(slotName))
  const missing = requiredSlots(step).filter((slot) => !taken.has(slotName(slot)))
  const confirmed = new Set(ownEvents.map(({ act }) => act))
  const open = step.events.filter((act) => !confirmed.has(act))
  // A start comes before the readings of its step, an end after them.
  const acts = [
    ...open.filter((act) => act === 'start'),
    ...(missing.length > 0 ? (['reading'] as const) : []),
    ...open.filter((act) => act === 'end'),
  ]
  const times = [...ownEvents, ...ownReadings].map(({ at }) => Date.parse(at))
  const state = acts.length === 0 ? ('done' as const) : times.length > 0 ? ('open' as const) : ('waiting' as const)
  const [first] = acts
  return {
    state,
    next: first === undefined ? null : { step: step.key, act: first },
    missing,
    from: times.length > 0 ? Math.min(...times) : null,
    until: times.length > 0 ? Math.max(...times) : null,
  }
}
