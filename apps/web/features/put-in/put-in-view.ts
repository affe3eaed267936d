import type { PutIn, SettlePutIn } from '@curebook/contract/put-in'
import {
  lateIfAtOnce,
  nextActs,
  planPutIn,
  runMinutes,
  usualMarginMinutes,
  type PutInRow,
  type Soaking,
} from '@curebook/trade/procedure/put-in'
import { dayOf, instantAt } from '#lib/laboratory-time.ts'
import { breaksOf } from './machine-breaks.ts'

const minute = 60_000

/** What stands in the address; empty = the usual. */
export type PutInChoice = {
  /** Calendar day and time of day of the first put-in; empty: as soon as possible. */
  readonly day: string
  readonly at: string
  readonly run: string
  readonly margin: string
  readonly spares: string
  /** Id of the machine. */
  readonly machine: string
}

export type PlannedPutIn = {
  readonly rows: readonly PutInRow[]
  readonly next: ReturnType<typeof nextActs>
  /** How many of those still to be put in would be late if they went in at once. */
  readonly lateAtOnce: number
  readonly waiting: number
  readonly run: number
  readonly margin: number
  /** Null where none is chosen and the laboratory has not exactly one. */
  readonly machineId: string | null
}

/** Run lengths and margins to choose from, in minutes; the usual ones first in mind, others for slower hands. */
export const runChoices: readonly number[] = [13, 14, 15, 16, 18, 20, 25, 30]
export const marginChoices: readonly number[] = [0, 1, 2, 3, 5, 10]

/**
 * The list as chosen. A first put-in that has passed goes on from now: what was not put in at its time cannot be. Without a
 * choice it goes by the list that was settled.
 * @param now the laboratory's clock in ms
 */
export function planOf(data: PutIn, choice: PutInChoice, now: number, zone: string): PlannedPutIn | null {
  if (data.soak === null) return null
  const run = chosenOf(runChoices, choice.run) ?? data.settled?.runMinutes ?? runMinutes.usual
  const margin = chosenOf(marginChoices, choice.margin) ?? usualMarginMinutes
  const waiting = data.waiting.filter(({ spare }) => !spare || choice.spares === 'yes')
  const soak = { earliestMs: data.soak.earliestMinutes * minute, latestMs: data.soak.latestMinutes * minute }
  const times = { soak, runMs: run * minute, marginMs: margin * minute }
  const firstPutIn = firstOf(data, choice, now, zone)
  const machineId = machineOf(data, choice)
  const machineFree = machineFreeOf(data, machineId, run)
  const rows = planPutIn({
    soaking: soakingOf(data, machineId),
    waiting: waiting.map(({ testId, label }) => ({ id: testId, label })),
    firstPutIn,
    // As a clock shows it: a window is missed when its minute is over.
    now: Math.floor(now / minute) * minute,
    ...(machineFree === null ? {} : { machineFree }),
    breaks: breaksOf(data, [now, firstPutIn], zone),
    ...times,
  })
  return {
    rows,
    next: nextActs(rows),
    lateAtOnce: lateIfAtOnce(waiting.length, times),
    waiting: waiting.length,
    run,
    margin,
    machineId,
  }
}

/** The list as it is settled: its own rows in their order, in place of the one that stood. */
export function toSettle(
  { designId, methodKey, settled }: PutIn,
  { rows, run, machineId }: Pick<PlannedPutIn, 'rows' | 'run' | 'machineId'>,
  reason: string,
): Omit<SettlePutIn, 'id'> {
  const iso = (ms: number) => new Date(ms).toISOString()
  return {
    ...{ designId, methodKey, instrumentId: machineId, runMinutes: run },
    rows: rows
      .filter(({ elsewhere }) => !elsewhere)
      .map(({ id, putIn, plannedStart }) => ({
        ...{ testId: id, putInAt: putIn === null ? null : iso(putIn), startAt: iso(plannedStart) },
      })),
    supersedes: settled && { id: settled.id, ...(reason.trim() === '' ? {} : { reason: reason.trim() }) },
  }
}

/** The machine as chosen or settled, else the only one there is. */
function machineOf({ machines, settled }: PutIn, { machine }: PutInChoice): string | null {
  const known = (id: string | undefined) => machines.find((one) => one.id === id)?.id
  return known(machine) ?? known(settled?.instrument?.id) ?? (machines.length === 1 ? (machines[0]?.id ?? null) : null)
}

/** Of whom nobody told the machine, it may be this one. */
function onMachine(machineId: string | null): (one: { readonly instrumentId: string | null }) => boolean {
  return ({ instrumentId }) => machineId === null || instrumentId === null || instrumentId === machineId
}

function machineFreeOf({ lastRunAt, running }: PutIn, machineId: string | null, run: number): number | null {
  const started = [
    ...(lastRunAt === null ? [] : [lastRunAt]),
    ...running.filter(onMachine(machineId)).map(({ startedAt }) => startedAt),
  ].map((at) => Date.parse(at))
  return started.length === 0 ? null : Math.max(...started) + run * minute
}

/** What lies in the bath, and what soaks elsewhere for the same machine. */
function soakingOf({ soaking, elsewhere, settled }: PutIn, machineId: string | null): readonly Soaking[] {
  const settledOf = new Map(settled?.rows.map(({ testId, startAt }) => [testId, startAt]))
  const planned = (at: string | null | undefined) => (at == null ? {} : { settledStart: Date.parse(at) })
  const window = ({ mayStartAt, mustStartAt }: { readonly mayStartAt: string; readonly mustStartAt: string }) => ({
    mayStart: Date.parse(mayStartAt),
    mustStart: Date.parse(mustStartAt),
  })
  return [
    ...soaking.map((test) => ({
      ...{ id: test.testId, label: test.label, ...window(test) },
      ...planned(settledOf.get(test.testId)),
    })),
    ...elsewhere.filter(onMachine(machineId)).map((test) => ({
      ...{ id: test.testId, label: test.label, elsewhere: true, ...window(test) },
      ...planned(test.settledStartAt),
    })),
  ]
}

/** The chosen time of day as `HH:MM`, else nothing. */
export function clockOf(typed: string): string | undefined {
  const found = /^([01]?\d|2[0-3])[:.]?([0-5]\d)$/.exec(typed.trim())
  return found === null ? undefined : `${(found[1] ?? '').padStart(2, '0')}:${found[2]}`
}

function firstOf({ settled, waiting }: PutIn, { day, at }: PutInChoice, now: number, zone: string): number {
  const soon = Math.ceil(now / minute) * minute
  const today = dayOf(new Date(now).toISOString(), zone)
  const clock = clockOf(at)
  if (clock === undefined && day === '') {
    const still = new Set(waiting.map(({ testId }) => testId))
    const planned = (settled?.rows ?? []).flatMap(({ testId, putInAt }) =>
      putInAt !== null && still.has(testId) ? [Date.parse(putInAt)] : [],
    )
    if (planned.length > 0) return Math.max(Math.min(...planned), soon)
  }
  if (clock === undefined && (day === '' || day === today)) return Math.ceil(now / (5 * minute)) * 5 * minute
  const chosen = Date.parse(instantAt(day === '' ? today : day, clock ?? '10:00', zone))
  return Math.max(chosen, soon)
}

function chosenOf(choices: readonly number[], typed: string): number | undefined {
  return choices.find((one) => String(one) === typed)
}
