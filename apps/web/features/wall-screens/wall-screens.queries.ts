'use client'

import type { MadeWallCode, MakeWallCode, MakeWallScreen, WallScreen } from '@curebook/contract/wall'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export const wallScreenQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'wall-screens'],
      queryFn: ({ signal }) => getJson<readonly WallScreen[]>(labPath(lab, 'wall-screens'), { signal }),
      meta: { topics: ['wall-screens'] },
    }),
}

/** Makes a screen; its code is shown in the answer alone. */
export function useMakeWallScreen(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: MakeWallScreen) => postJson<MadeWallCode>(labPath(lab, 'wall-screens'), body),
    onSuccess: () => refreshTopics(client, ['wall-screens']),
  })
}

/** Makes another code for a screen; the one before holds no more. */
export function useMakeWallCode(lab: string, screen: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: MakeWallCode) => postJson<MadeWallCode>(labPath(lab, 'wall-screens', screen, 'codes'), body),
    onSuccess: () => refreshTopics(client, ['wall-screens']),
  })
}

export function useEndWallScreen(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (screen: string) => postJson<WallScreen>(labPath(lab, 'wall-screens', screen, 'end')),
    onSuccess: () => refreshTopics(client, ['wall-screens']),
  })
}
