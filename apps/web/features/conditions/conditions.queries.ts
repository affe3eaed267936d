'use client'

import type { ConditionLog, MadeKey, MakeKey, PostConditions, PostedConditions } from '@curebook/contract/conditions'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export const conditionQueries = {
  /** The last days of an oven's or bath's log. */
  log: (lab: string, instrument: string) =>
    queryOptions({
      queryKey: [lab, 'conditions', instrument],
      queryFn: ({ signal }) => getJson<ConditionLog>(labPath(lab, 'instruments', instrument, 'conditions'), { signal }),
      meta: { topics: [`conditions:${instrument}`, 'loads', 'deviations'] },
    }),
}

export function useAddCondition(lab: string, instrument: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: PostConditions) =>
      postJson<PostedConditions>(labPath(lab, 'instruments', instrument, 'conditions'), body),
    onSuccess: () => refreshTopics(client, [`conditions:${instrument}`, 'deviations', 'bench']),
  })
}

/** Makes a key, which is shown in the answer alone, or ends the one that stands. */
export function useMakeKey(lab: string, instrument: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: MakeKey) => postJson<MadeKey>(labPath(lab, 'instruments', instrument, 'keys'), body),
    onSuccess: () => refreshTopics(client, [`conditions:${instrument}`]),
  })
}
