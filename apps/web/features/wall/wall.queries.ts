'use client'

import type { PairWall, Wall } from '@curebook/contract/wall'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, postJson } from '#lib/api-client.ts'

/** A wall is asked for whole: nobody is signed in on it, so no live events reach it. Common practice, no source. */
const lookMs = 30_000
/** A look that hangs is a look that failed. */
const patienceMs = 20_000

export const wallQueries = {
  /** What stands on the wall of this browser. It looks on after a failure, and no more once it is ended. */
  look: () =>
    queryOptions({
      queryKey: ['wall'],
      queryFn: () => getJson<Wall>('/api/wall', { signal: AbortSignal.timeout(patienceMs) }),
      refetchInterval: ({ state: { data } }) => (data === undefined || data.state === 'shown' ? lookMs : false),
      refetchIntervalInBackground: true,
      // Ended stays said until the page is loaded anew: the next look would know nothing of it.
      refetchOnWindowFocus: ({ state: { data } }) => data?.state !== 'ended',
    }),
}

/** Makes this browser a wall screen. */
export function usePairWall() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: PairWall) => postJson<{ readonly name: string }>('/api/wall/pairing', body),
    onSuccess: () => client.invalidateQueries({ queryKey: wallQueries.look().queryKey }),
  })
}
