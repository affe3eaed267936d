'use client'

import type { Ovens, PutIn, ReadLoad, TakeOut } from '@curebook/contract/loads'
import { queryOptions, useMutation } from '@tanstack/react-query'
import { useMemo } from 'react'
import { refusedAlready } from '#features/bench/waiting-acts.ts'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useWords } from '#lib/words.ts'
import { isSamePlace, temperaturesElsewhere, withCarriedOver } from './carry-over.ts'
import { sendLoad } from './send-load.ts'
import { usePressed } from './use-pressed.ts'
import { waitingLoads } from './waiting-loads.ts'

export const loadQueries = {
  /** What stands in each oven and bath now, and what waits to go in. */
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'loads'],
      queryFn: ({ signal }) => getJson<Ovens>(labPath(lab, 'loads'), { signal }),
      meta: { topics: ['loads', 'bench'] },
    }),
}

const topics = ['loads', 'bench', 'schedule', 'design', 'deviations']
const laneOf = (load: string) => `load/${load}`

/** What was done with loads here and is on this device still: not that whose answer is looked for at this moment. */
export function useWaitingLoads() {
  const { me } = useLaboratory()
  const { entries, awaited, stateOf } = useOutbox()
  return useMemo(
    () => waitingLoads(entries, me.membershipId).filter(({ id }) => !awaited.has(id) && stateOf(id) !== 'stored'),
    [entries, awaited, stateOf, me.membershipId],
  )
}

type Move<Way, Body> = {
  readonly way: Way
  readonly load: string
  readonly body: Body
  /** What the act is with these specimens, for the list of what waits. */
  readonly labelOf: (testIds: readonly string[]) => string
  /** And what else is said in it. */
  readonly label: string
}

/** The refused acts of this person on this device in whose place an act on these specimens would stand. */
export function useRefusedMoves() {
  const { me } = useLaboratory()
  const { entries } = useOutbox()
  return (way: 'in' | 'out', rows: PutIn['rows']) => {
    const kind = way === 'in' ? 'start' : 'end'
    const acts = rows.map(({ testId, stepKey }) => ({ testId, stepKey, kind }) as const)
    const ids = new Set(refusedAlready(entries, me.membershipId, acts))
    return entries.filter(({ id }) => ids.has(id))
  }
}

/**
 * Puts specimens into a load, which is opened with them where it is a new one, or takes them out: one request, on the device
 * before it is sent, in the lanes of the load and of each specimen. Sent again with the same ids it is the same act. In the place
 * of a refused one it takes over what was entered there and is not entered anew.
 */
export function useMoveLoad() {
  const words = useWords()
  const lab = useLaboratory()
  const outbox = useOutbox()
  const refusedOf = useRefusedMoves()
  return useMutation({
    mutationFn: ({ way, load, body: entered, labelOf, label }: Move<'in', PutIn> | Move<'out', TakeOut>) => {
      const refused = refusedOf(way, entered.rows)
      const path = labPath(lab.id, 'loads', load, way)
      const body = withCarriedOver(entered, path, refused)
      const carried = entered.temperature === null ? body.temperature?.typed : undefined
      const withRead = (entry: string, typed: string | undefined) =>
        typed === undefined ? entry : words('loads.entry.read', { entry, typed })
      const entry = {
        // A row's id is nothing else's: the first names the whole.
        id: body.rows[0]?.id ?? load,
        lane: laneOf(load),
        path,
        body,
        label: withRead(label, carried),
        topics,
        rows: body.rows.map(({ id, testId }) => ({
          id,
          lane: testId,
          label: withRead(labelOf([testId]), body.temperature?.typed),
        })),
      }
      return sendLoad(outbox, entry, {
        replaces: refused.map(({ id }) => id),
        further: temperaturesElsewhere(refused.filter((before) => !isSamePlace(before, path, body))),
        keeps: carried !== undefined,
      })
    },
  })
}

/** A reading of a load, or one put right, by the same way and in the load's lane. */
export function useReadLoad(load: string) {
  const lab = useLaboratory()
  const outbox = useOutbox()
  const pressed = usePressed()
  return useMutation({
    mutationFn: ({ body, label }: { readonly body: ReadLoad; readonly label: string }) => {
      const path = labPath(lab.id, 'loads', load, 'readings')
      return sendLoad(
        outbox,
        { id: body.id, lane: laneOf(load), path, body, label, topics: ['loads', 'deviations'] },
        { replaces: pressed(body.id) },
      )
    },
  })
}
