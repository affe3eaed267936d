'use client'

import type { ConditionLog, CorrectCondition, MadeKey, MakeKey, PostConditions } from '@curebook/contract/conditions'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { useMemo } from 'react'
import { sendLoad } from '#features/loads/send-load.ts'
import { usePressed } from '#features/loads/use-pressed.ts'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { postAs } from '#lib/post-as.ts'
import { logLane, waitingValues } from './waiting-values.ts'

export const conditionQueries = {
  /** The last days of an oven's or bath's log. */
  log: (lab: string, instrument: string) =>
    queryOptions({
      queryKey: [lab, 'conditions', instrument],
      queryFn: ({ signal }) => getJson<ConditionLog>(labPath(lab, 'instruments', instrument, 'conditions'), { signal }),
      meta: { topics: [`conditions:${instrument}`, 'loads', 'deviations'] },
    }),
}

/** What was entered for logs here and is on this device still: not that whose answer is looked for at this moment. */
export function useWaitingValues() {
  const { me } = useLaboratory()
  const { entries, awaited, stateOf } = useOutbox()
  return useMemo(
    () => waitingValues(entries, me.membershipId).filter(({ id }) => !awaited.has(id) && stateOf(id) !== 'stored'),
    [entries, awaited, stateOf, me.membershipId],
  )
}

/**
 * Puts something for a log on the device before it is sent, in the lane of the oven or bath. Pressed again in the same dialog it
 * takes the place of what was refused there.
 */
function useLogEntry<Body extends object>(instrument: string, way: string, idOf: (body: Body) => string) {
  const lab = useLaboratory()
  const outbox = useOutbox()
  const pressed = usePressed()
  return useMutation({
    mutationFn: async ({ body, label }: { readonly body: Body; readonly label: string }) => {
      const id = idOf(body)
      const path = labPath(lab.id, 'instruments', instrument, `conditions${way}`)
      const topics = [`conditions:${instrument}`, 'loads', 'deviations', 'bench']
      await sendLoad(outbox, { id, lane: logLane(instrument), path, body, label, topics }, { replaces: pressed(id) })
    },
  })
}

/** One value by hand, with the time at which it was read. */
export function useAddCondition(instrument: string) {
  return useLogEntry<PostConditions>(instrument, '', ({ values }) => values[0]?.id ?? '')
}

/** Puts a mistyped value right; the log is judged anew. */
export function useCorrectCondition(instrument: string, value: string) {
  return useLogEntry<CorrectCondition>(instrument, `/${value}/corrections`, ({ id }) => id)
}

/** Makes a key, which is shown in the answer alone, or ends the one that stands. */
export function useMakeKey(lab: string, instrument: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: MakeKey) => postAs<MadeKey>(me, labPath(lab, 'instruments', instrument, 'keys'), body),
    onSuccess: () => refreshTopics(client, [`conditions:${instrument}`]),
  })
}
