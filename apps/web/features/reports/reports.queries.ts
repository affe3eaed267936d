'use client'

import type { Design } from '@curebook/contract/designs'
import type { IssueReport, PreviewReport, Report, ReportPreview } from '@curebook/contract/reports'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { topicsOfDesign } from '#features/designs/designs.queries.ts'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

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
export function reportFile(lab: string, reportId: string, kind: 'pdf' | 'csv' | 'content'): string {
  return labPath(lab, 'reports', reportId, kind)
}

/** The file of a preview: what issuing releases, not released yet. */
export function previewFile(lab: string, previewId: string): string {
  return labPath(lab, 'report-previews', previewId, 'pdf')
}

/** The report of the newest revision as it would read, made anew each time it is opened. */
export function draftFile(lab: string, designId: string): string {
  return labPath(lab, 'designs', designId, 'draft-report')
}

export function usePreviewReport(lab: string) {
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: PreviewReport) => postAs<ReportPreview>(me, labPath(lab, 'report-previews'), body),
  })
}

export function useIssueReport(lab: string, design: Design) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: IssueReport) => postAs<Report>(me, labPath(lab, 'reports'), body),
    onSuccess: () => refreshTopics(client, [...topicsOfDesign(design), 'reports']),
  })
}
