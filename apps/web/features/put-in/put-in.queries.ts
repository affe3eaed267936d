'use client'

import type { PutIn, SettledPutIn, SettlePutIn } from '@curebook/contract/put-in'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { ApiProblem } from '#lib/api-problem.ts'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const putInQueries = {
  one: (lab: string, { designId, methodKey }: { designId: string; methodKey: string }) =>
    queryOptions({
      queryKey: [lab, 'put-in', designId, methodKey],
      queryFn: ({ signal }) =>
        getJson<PutIn>(labPath(lab, 'bench', 'put-in'), { signal, query: { designId, methodKey } }),
      meta: { topics: ['bench', 'put-in', 'laboratory', `design:${designId}`] },
    }),
}

/** Sent again with the same id it is the same list. */
export function useSettlePutIn(lab: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: SettlePutIn) => postAs<SettledPutIn>(me, labPath(lab, 'bench', 'put-in-lists'), body),
    onSuccess: () => refreshTopics(client, ['put-in']),
    // Somebody else settled one meanwhile: it is shown, and what one chose stays.
    onError: (error) => {
      if (error instanceof ApiProblem && error.code === 'conflict') void refreshTopics(client, ['put-in'])
    },
  })
}
