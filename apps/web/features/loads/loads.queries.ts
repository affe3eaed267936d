'use client'

import type { Load, LoadMoved, OpenLoad, Ovens, PutIn, ReadLoad, TakeOut } from '@curebook/contract/loads'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

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
const sentNow = <Body extends { readonly time: OpenLoad['time'] }>(body: Body): Body => ({
  ...body,
  time: { ...body.time, sentAt: new Date().toISOString() },
})

/** Puts specimens into a load, which is opened first where it is a new one. Sent again with the same ids it is the same act. */
export function usePutIn(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: async ({ load, opens, body }: { load: string; opens: string | null; body: PutIn }) => {
      if (opens !== null)
        await postJson<Load>(labPath(lab, 'loads'), sentNow({ id: load, instrumentId: opens, time: body.time }))
      return postJson<LoadMoved>(labPath(lab, 'loads', load, 'in'), sentNow(body))
    },
    onSettled: () => refreshTopics(client, topics),
  })
}

export function useTakeOut(lab: string, load: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: TakeOut) => postJson<LoadMoved>(labPath(lab, 'loads', load, 'out'), sentNow(body)),
    onSettled: () => refreshTopics(client, topics),
  })
}

export function useReadLoad(lab: string, load: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: ReadLoad) => postJson<Load>(labPath(lab, 'loads', load, 'readings'), sentNow(body)),
    onSuccess: () => refreshTopics(client, ['loads']),
  })
}
