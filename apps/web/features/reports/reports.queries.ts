'use client'

import type { Design } from '@curebook/contract/designs'
import type { IssueReport, Report } from '@curebook/contract/reports'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { topicsOfDesign } from '#features/designs/designs.queries.ts'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export const reportQueries = {
  ofDesign: (lab: string, designId: string) =>
    queryOptions({
      queryKey: [lab, 'reports', designId],
      queryFn: ({ signal }) =>
        getJson<{ items: Report[]; next: string | null }>(labPath(lab, 'reports'), { signal, query: { designId } }),
      meta: { topics: ['reports', 'report', `design:${designId}`] },
    }),
  ofProject: (lab: string, projectId: string) =>
    queryOptions({
      queryKey: [lab, 'reports', 'of-project', projectId],
      queryFn: ({ signal }) =>
        getJson<{ items: Report[]; next: string | null }>(labPath(lab, 'reports'), { signal, query: { projectId } }),
      meta: { topics: ['reports', 'report', `project:${projectId}`] },
    }),
}

/** Where a browser fetches a report's file; the session's cookie opens it. */
export function reportFile(lab: string, reportId: string, kind: 'pdf' | 'csv'): string {
  return labPath(lab, 'reports', reportId, kind)
}

export function useIssueReport(lab: string, design: Design) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: IssueReport) => postJson<Report>(labPath(lab, 'reports'), body),
    onSuccess: () => refreshTopics(client, [...topicsOfDesign(design), 'reports']),
  })
}
