import type { PersonName } from '@curebook/contract/common'
import type { Load, Ovens, PutIn, ReadLoad } from '@curebook/contract/loads'
import { refusedBefore } from '#lib/outbox/lanes.ts'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'

/** What was done with a load and is on this device still. */
export type WaitingLoad = {
  readonly id: string
  readonly loadId: string
  /** The oven or bath in which what is put in opens the load. */
  readonly opens: string | null
  readonly way: 'in' | 'out' | 'read'
  readonly testIds: readonly string[]
  /** By this device's clock. */
  readonly at: string
  readonly label: string
  readonly refused: boolean
  readonly reason: string | undefined
  /** The refused entry that must be settled before it goes, by its label. */
  readonly behind: string | undefined
}

const ways = { in: 'in', out: 'out', readings: 'read' } as const

/** Acts on loads of this person that are on the device, in their order. */
export function waitingLoads(entries: readonly OutboxEntry[], membershipId: string): readonly WaitingLoad[] {
  const own = entries.filter((entry) => entry.membershipId === membershipId)
  return own.flatMap((entry) => {
    const [, loadId, way] = /\/loads\/([^/]+)\/(in|out|readings)$/.exec(entry.path) ?? []
    if (loadId === undefined || way === undefined) return []
    const { time, rows = [], opens = null } = entry.body as Pick<ReadLoad, 'time'> & Partial<PutIn>
    return [
      {
        id: entry.id,
        loadId,
        opens,
        way: ways[way as keyof typeof ways],
        testIds: rows.map(({ testId }) => testId),
        at: time.eventAt,
        label: entry.label,
        refused: entry.state === 'refused',
        reason: entry.problem?.message,
        behind: refusedBefore(entry, own)?.label,
      },
    ]
  })
}

/**
 * The ovens as they are with what waits on this device: what was put in stands there, what was taken out does not. Windows and
 * constant mass of it are the server's to judge, and not told. What was refused is as the record has it.
 */
export function withWaiting(ovens: Ovens, waiting: readonly WaitingLoad[], me: PersonName): Ovens {
  return waiting.filter(({ refused }) => !refused).reduce((before, act) => withAct(before, act, me), ovens)
}

/** Of what waits here, what belongs to none of the ovens and loads that are shown, and must be shown apart. */
export function notInThese(ovens: Ovens, waiting: readonly WaitingLoad[]): readonly WaitingLoad[] {
  const known = new Set(ovens.instruments.flatMap(({ id, loads }) => [id, ...loads.map((load) => load.id)]))
  return waiting.filter(({ loadId, opens }) => !known.has(loadId) && !known.has(opens ?? loadId))
}

function withAct(ovens: Ovens, act: WaitingLoad, me: PersonName): Ovens {
  if (act.way === 'read') return ovens
  if (act.way === 'out')
    return inLoad(ovens, act.loadId, (load) => ({
      ...load,
      specimens: load.specimens.filter(({ testId }) => !act.testIds.includes(testId)),
    }))
  const moved = ovens.waiting.filter(({ testId }) => act.testIds.includes(testId))
  const specimens = moved.map(({ kind: _, ...one }) => ({ ...one, since: act.at, opensAt: null, closesAt: null }))
  const rest = { ...ovens, waiting: ovens.waiting.filter((one) => !moved.includes(one)) }
  const stands = ovens.instruments.some(({ loads }) => loads.some(({ id }) => id === act.loadId))
  return inLoad(stands ? rest : opened(rest, act, me), act.loadId, (load) => ({
    ...load,
    specimens: [...load.specimens, ...specimens],
    constantMass: specimens.length > 0 ? null : load.constantMass,
  }))
}

function inLoad(ovens: Ovens, id: string, change: (load: Load) => Load): Ovens {
  const instruments = ovens.instruments.map((one) => ({
    ...one,
    loads: one.loads.map((load) => (load.id === id ? change(load) : load)),
  }))
  return { ...ovens, instruments }
}

/** With the load that the act opens, empty. */
function opened(ovens: Ovens, { loadId, opens, at }: WaitingLoad, by: PersonName): Ovens {
  const instruments = ovens.instruments.map((one) => {
    if (one.id !== opens) return one
    const load: Load = {
      id: loadId,
      kind: one.kind,
      instrumentId: one.id,
      openedAt: at,
      by,
      specimens: [],
      temperatures: [],
      checks: [],
      constantMass: null,
    }
    return { ...one, loads: [...one.loads, load] }
  })
  return { ...ovens, instruments }
}
