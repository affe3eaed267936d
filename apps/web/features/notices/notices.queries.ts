'use client'

import type { Notices } from '@curebook/contract/notices'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { postAs } from '#lib/post-as.ts'

export const noticeQueries = {
  /** @param membershipId whose they are: on a shared tablet, nobody sees another's from the cache */
  mine: (lab: string, membershipId: string) =>
    queryOptions({
      queryKey: [lab, 'notices', membershipId],
      queryFn: ({ signal }) => getJson<Notices>(labPath(lab, 'notices'), { signal }),
      meta: { topics: ['notices'] },
    }),
}

/** Says that I have seen one; the answer is what is left. */
export function useSeeNotice(lab: string, membershipId: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (id: string) => postAs<Notices>({ membershipId }, labPath(lab, 'notices', id, 'seen'), {}),
    onSuccess: (left) => client.setQueryData(noticeQueries.mine(lab, membershipId).queryKey, left),
  })
}
