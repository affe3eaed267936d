'use client'

import type { ExpectedDay, ExpectedDays, SetExpectedDay } from '@curebook/contract/expected-days'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const expectedDayQueries = {
  ofProject: (lab: string, projectId: string) =>
    queryOptions({
      queryKey: [lab, 'expected-days', projectId],
      queryFn: ({ signal }) => getJson<ExpectedDays>(labPath(lab, 'projects', projectId, 'expected-days'), { signal }),
      meta: { topics: [`project:${projectId}`] },
    }),
}

export function useSetExpectedDay(lab: string, projectId: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: SetExpectedDay) =>
      postAs<ExpectedDay>(me, labPath(lab, 'projects', projectId, 'expected-days'), body),
    // Refused because somebody else set it: what stands now is read again.
    onSettled: () => refreshTopics(client, [`project:${projectId}`]),
  })
}
