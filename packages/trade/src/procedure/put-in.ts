import type { EditionParameters, InstrumentKind, MethodDeclaration, WindowDeclaration } from './declaration.ts'
import { firstFree, type Span } from './free-time.ts'
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

/** The kind of machine that runs what was put in; null where the method has no such window. */
export function machineOf(method: Pick<MethodDeclaration, 'steps' | 'windows'>): InstrumentKind | null {
  const run = putInWindowOf(method)?.step
  const kinds = method.steps.find(({ key }) => key === run)?.equipment ?? []
  return kinds.find((kind) => machines.includes(kind)) ?? null
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
  /** When its run is settled to start; left out: as its window says. */
  readonly settledStart?: number
  /** Of another list, whose runs go over the same machine: it takes the machine, and is not planned anew. */
  readonly elsewhere?: boolean
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
  /** It cannot start in its window: what stands in the way. Its window may have passed. */
  readonly late: boolean
  readonly lateFor: 'break' | 'machine' | null
  /** Its window has passed: it can no longer start in time. */
  readonly missed: boolean
  /** A break has moved it. */
  readonly moved: boolean
  readonly elsewhere: boolean
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
  /** When nobody puts in, starts a run or changes a specimen. */
  readonly breaks?: readonly Span[]
  readonly soak: Soak
  readonly runMs: number
  /** So long after the earliest each run is planned; cut to the window. */
  readonly marginMs: number
}

/**
 * Put-in and start of each specimen where one machine runs them one after another, none of it in a break: what lies in the
 * bath first, as its windows end, then the others, put in so far apart that each finds the machine free in its own window.
 */
export function planPutIn(plan: PutInPlan): readonly PutInRow[] {
  const { soak, runMs, now, machineFree = now, breaks = [] } = plan
  const margin = Math.min(plan.marginMs, soak.latestMs - soak.earliestMs)
  const from = Math.max(now, machineFree)
  // The runs planned so far: each takes the machine from its start until the next can start.
  const runs: Span[] = []
  const take = (row: PutInRow): PutInRow => {
    runs.push({ from: row.plannedStart, to: row.plannedStart + runMs })
    return row
  }
  const inBath = inTurn(plan.soaking).map((one) => take(startOf(one, { from, now, margin, runs, breaks, runMs })))
  let earliestPutIn = plan.firstPutIn
  const still = plan.waiting.map(({ id, label }): PutInRow => {
    const found = putInOf(earliestPutIn, { from, soak, margin, runs, breaks, runMs })
    earliestPutIn = found.putIn + runMs
    const mayStart = found.putIn + soak.earliestMs
    return take({
      ...{ id, label, putIn: found.putIn, mayStart, mustStart: found.putIn + soak.latestMs },
      ...{ plannedStart: found.start, late: false, lateFor: null, missed: false },
      ...{ moved: found.moved, elsewhere: false },
    })
  })
  return [...inBath, ...still]
}

/** A time settled elsewhere is kept before anything is planned anew; the others as their windows end. */
function inTurn(soaking: readonly Soaking[]): readonly Soaking[] {
  const kept = ({ elsewhere, settledStart }: Soaking) => (elsewhere && settledStart !== undefined ? settledStart : null)
  return soaking.toSorted((a, b) => {
    const [one, other] = [kept(a), kept(b)]
    if (one !== null || other !== null) return (one ?? Infinity) - (other ?? Infinity)
    return a.mustStart - b.mustStart || a.mayStart - b.mayStart
  })
}

type Machine = {
  readonly from: number
  readonly margin: number
  readonly runs: readonly Span[]
  readonly breaks: readonly Span[]
  readonly runMs: number
}

/** The margin is a comfort: it gives way before a window is missed. */
function startOf(
  { id, label, mayStart, mustStart, settledStart, elsewhere = false }: Soaking,
  { from, now, margin, runs, breaks, runMs }: Machine & { readonly now: number },
): PutInRow {
  const wanted = Math.max(settledStart ?? mayStart + margin, mayStart)
  const preferred = Math.max(Math.min(wanted, mustStart), from)
  const earliest = Math.max(mayStart, from)
  const startIn = (taken: readonly Span[]) => {
    const later = firstFree(preferred, runMs, taken)
    if (later <= mustStart) return later
    const sooner = firstFree(earliest, runMs, taken)
    return sooner <= mustStart ? sooner : later
  }
  const [plannedStart, withoutBreaks] = [startIn([...runs, ...breaks]), startIn(runs)]
  const late = plannedStart > mustStart
  return {
    ...{ id, label, putIn: null, mayStart, mustStart, plannedStart, late, elsewhere },
    lateFor: !late ? null : withoutBreaks <= mustStart ? 'break' : 'machine',
    missed: now > mustStart,
    moved: plannedStart !== withoutBreaks,
  }
}

/** The earliest put-in outside the breaks whose run finds the machine free, and hands, in its own window. */
function putInOf(
  earliest: number,
  { from, soak, margin, runs, breaks, runMs }: Machine & { readonly soak: Soak },
): { readonly putIn: number; readonly start: number; readonly moved: boolean } {
  const place = (off: readonly Span[]) => {
    const taken = [...runs, ...off]
    let putIn = firstFree(Math.max(earliest, from - soak.earliestMs - margin), 1, off)
    for (;;) {
      const mayStart = putIn + soak.earliestMs
      const later = firstFree(Math.max(mayStart + margin, from), runMs, taken)
      if (later <= putIn + soak.latestMs) return { putIn, start: later }
      const sooner = firstFree(Math.max(mayStart, from), runMs, taken)
      if (sooner <= putIn + soak.latestMs) return { putIn, start: sooner }
      // Put in later, so that the next time at which the machine is free and hands are there is its time.
      putIn = firstFree(later - soak.earliestMs - margin, 1, off)
    }
  }
  const [found, withoutBreaks] = [place(breaks), place([])]
  return { ...found, moved: found.putIn !== withoutBreaks.putIn || found.start !== withoutBreaks.start }
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

/** What is done next: the first specimen still to be put in, and the first run of this list that has not started. */
export function nextActs(rows: readonly PutInRow[]): {
  readonly putIn: PutInRow | null
  readonly start: PutInRow | null
} {
  const start =
    rows.filter(({ elsewhere }) => !elsewhere).toSorted((a, b) => a.plannedStart - b.plannedStart)[0] ?? null
  return { putIn: rows.find(({ putIn }) => putIn !== null) ?? null, start }
}
