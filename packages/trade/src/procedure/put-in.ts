import type { EditionParameters, InstrumentKind, MethodDeclaration, WindowDeclaration } from './declaration.ts'
import { durationOf } from './windows.ts'

/** How long a specimen lies before its run, in ms after its put-in. */
export type Soak = { readonly earliestMs: number; readonly latestMs: number }

/** Minutes of one run with change, from start to start; common practice, no source. */
export const runMinutes = { from: 13, to: 15, usual: 15 } as const
/** Minutes after the earliest at which a run is planned to start; common practice, no source. */
export const usualMarginMinutes = 2

/** Machines that take one specimen at a time. */
const machines: readonly InstrumentKind[] = ['wet-track-machine', 'loaded-wheel']

/**
 * The window of a method between a put-in and a start on a machine that takes one specimen at a time; null where it has none.
 * Such specimens are put in as far apart as the runs will be.
 */
export function putInWindowOf({
  steps,
  windows,
}: Pick<MethodDeclaration, 'steps' | 'windows'>): WindowDeclaration | null {
  const onMachine = (key: string) =>
    steps.some((step) => step.key === key && step.equipment.some((kind) => machines.includes(kind)))
  return (
    windows.find(
      ({ act, after, step, earliestParameter, latestParameter }) =>
        act === 'start' && after.act === 'start' && earliestParameter && latestParameter && onMachine(step),
    ) ?? null
  )
}

/**
 * The soak of an edition, by the window that it bounds.
 * @throws EditionError when the edition lacks a duration that the window names
 */
export function soakOf({ earliestParameter, latestParameter }: WindowDeclaration, parameters: EditionParameters): Soak {
  return {
    earliestMs: durationOf(parameters, earliestParameter as string),
    latestMs: durationOf(parameters, latestParameter as string),
  }
}

/** A specimen in the bath, with its own window; times in ms. */
export type Soaking = {
  readonly id: string
  readonly label: string
  readonly mayStart: number
  readonly mustStart: number
}
export type ToPutIn = { readonly id: string; readonly label: string }

export type PutInRow = {
  readonly id: string
  readonly label: string
  /** Null: it lies in the bath already. */
  readonly putIn: number | null
  readonly mayStart: number
  readonly mustStart: number
  readonly plannedStart: number
  /** The machine is free too late for its window, or its window has passed. */
  readonly late: boolean
  /** Its window has passed: it can no longer start in time. */
  readonly missed: boolean
}

export type PutInPlan = {
  readonly soaking: readonly Soaking[]
  /** In the order in which they are put in. */
  readonly waiting: readonly ToPutIn[]
  readonly firstPutIn: number
  /** Nothing starts before now. */
  readonly now: number
  /** When the run that is on the machine now will be off it; left out: it is free. */
  readonly machineFree?: number
  readonly soak: Soak
  readonly runMs: number
  /** So long after the earliest each run is planned; cut to the window. */
  readonly marginMs: number
}

/**
 * Put-in and start of each specimen where one machine runs them one after another: what lies in the bath first, as its
 * windows end, then the others, put in so far apart that each finds the machine free in its own window.
 */
export function planPutIn({
  soaking,
  waiting,
  firstPutIn,
  now,
  machineFree = now,
  soak,
  runMs,
  marginMs,
}: PutInPlan): readonly PutInRow[] {
  const margin = Math.min(marginMs, soak.latestMs - soak.earliestMs)
  let free = Math.max(now, machineFree)
  const inBath = soaking
    .toSorted((a, b) => a.mustStart - b.mustStart || a.mayStart - b.mayStart)
    .map(({ id, label, mayStart, mustStart }): PutInRow => {
      // The margin is a comfort: it gives way before a window is missed.
      const plannedStart = Math.max(Math.min(mayStart + margin, mustStart), free)
      free = plannedStart + runMs
      return {
        id,
        label,
        putIn: null,
        mayStart,
        mustStart,
        plannedStart,
        late: plannedStart > mustStart,
        missed: now > mustStart,
      }
    })
  let earliestPutIn = firstPutIn
  const still = waiting.map(({ id, label }): PutInRow => {
    const putIn = Math.max(earliestPutIn, free - soak.earliestMs - margin)
    const mayStart = putIn + soak.earliestMs
    const plannedStart = mayStart + margin
    free = plannedStart + runMs
    earliestPutIn = putIn + runMs
    return { id, label, putIn, mayStart, mustStart: putIn + soak.latestMs, plannedStart, late: false, missed: false }
  })
  return [...inBath, ...still]
}

/** How many of `count` specimens would start too late if all were put in at once and run one after another. */
export function lateIfAtOnce(
  count: number,
  { soak, runMs, marginMs }: Pick<PutInPlan, 'soak' | 'runMs' | 'marginMs'>,
): number {
  const width = soak.latestMs - soak.earliestMs
  const first = Math.min(marginMs, width)
  return Array.from({ length: count }, (_, index) => first + index * runMs).filter((start) => start > width).length
}

/** What is done next: the first specimen still to be put in, and the first run that has not started. */
export function nextActs(rows: readonly PutInRow[]): {
  readonly putIn: PutInRow | null
  readonly start: PutInRow | null
} {
  const start = rows.toSorted((a, b) => a.plannedStart - b.plannedStart)[0] ?? null
  return { putIn: rows.find(({ putIn }) => putIn !== null) ?? null, start }
}
