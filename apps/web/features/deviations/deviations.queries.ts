'use client'

import type { DecideDeviation, Deviation } from '@curebook/contract/deviations'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const deviationQueries = {
  /** All of them, or only those that wait for a decision. */
  list: (lab: string, open: boolean) =>
    queryOptions({
      queryKey: [lab, 'deviations', open],
      queryFn: ({ signal }) =>
        getJson<{ items: Deviation[]; next: string | null }>(labPath(lab, 'deviations'), {
          signal,
          query: { open: open ? 'yes' : 'no' },
        }),
      meta: { topics: ['deviations', 'bench'] },
    }),
}

export function useDecideDeviation(lab: string, deviationId: string, topics: readonly string[]) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: DecideDeviation) =>
      postAs<Deviation>(me, labPath(lab, 'deviations', deviationId, 'decisions'), body),
    onSuccess: () => refreshTopics(client, ['deviations', 'bench', ...topics]),
  })
}
