'use client'

import type { HandOver, OfferedHandOver, OfferHandOver, TakeHandOver } from '@curebook/contract/hand-overs'
import type { BulkOutcome } from '@curebook/contract/schedule'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { labPath, postJson } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const handOverQueries = {
  /** Each look counts as an attempt: it is made once, and again only when asked. */
  behind: (lab: string, code: string) =>
    queryOptions({
      queryKey: [lab, 'hand-over', code],
      queryFn: ({ signal }) => postJson<HandOver>(labPath(lab, 'hand-overs', 'look-up'), { code }, { signal }),
      enabled: code !== '',
      retry: false,
      staleTime: Infinity,
      gcTime: 0,
      refetchOnWindowFocus: false,
      refetchOnReconnect: false,
    }),
}

export function useOffer(lab: string) {
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: OfferHandOver) => postAs<OfferedHandOver>(me, labPath(lab, 'hand-overs'), body),
  })
}

/** Sent again with the same key it is the same act. */
export function useTake(lab: string, key: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: TakeHandOver) =>
      postAs<BulkOutcome>(me, labPath(lab, 'hand-overs', 'take'), body, { idempotencyKey: key }),
    onSuccess: () => refreshTopics(client, ['bench', 'schedule']),
  })
}
