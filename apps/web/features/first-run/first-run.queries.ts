'use client'

import type { FirstRun } from '@curebook/contract/first-run'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, postJson } from '#lib/api-client.ts'

export const firstRunQueries = {
  state: () =>
    queryOptions({
      queryKey: ['first-run'],
      queryFn: ({ signal }) => getJson<{ needed: boolean }>('/api/first-run', { signal }),
      staleTime: 0,
    }),
}

/** Makes the first laboratory and its manager, who then signs in. */
export function useFirstRun() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: FirstRun) => postJson<{ labId: string; shortName: string }>('/api/first-run', body),
    onSuccess: () => client.clear(),
  })
}
