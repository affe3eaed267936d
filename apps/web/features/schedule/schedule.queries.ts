'use client'

import type { Assign, AssignmentCheck, AssignmentConflicts, BulkOutcome, Schedule } from '@curebook/contract/schedule'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const scheduleQueries = {
  all: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'schedule'],
      queryFn: ({ signal }) => getJson<Schedule>(labPath(lab, 'schedule'), { signal }),
      meta: { topics: ['schedule', 'bench', 'deviations', 'people'] },
    }),
  /** What speaks against giving these tests to this person; asked as soon as the person is chosen. */
  check: (lab: string, body: AssignmentCheck | null) =>
    queryOptions({
      queryKey: [lab, 'schedule', 'assignment-check', body?.to, body?.testIds],
      queryFn: ({ signal }) =>
        postJson<AssignmentConflicts>(labPath(lab, 'schedule', 'assignment-check'), body, { signal }),
      enabled: body !== null,
      meta: { topics: ['schedule', 'bench', 'people'] },
    }),
}

/** @param key of one confirmation: sent again after a lost answer, it is the same act */
export function useAssign(lab: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: ({ body, key }: { body: Assign; key: string }) =>
      postAs<BulkOutcome>(me, labPath(lab, 'assignments'), body, { idempotencyKey: key }),
    onSuccess: () => refreshTopics(client, ['schedule', 'bench', 'test']),
  })
}
