'use client'

import type { ClientProjects } from '@curebook/contract/reports'
import { queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

export const clientViewQueries = {
  /** A client's own projects in plain words. What is live for them is one topic: that something of theirs changed. */
  progress: (lab: string, clientId: string | null) =>
    queryOptions({
      queryKey: [lab, 'progress'],
      queryFn: ({ signal }) => getJson<ClientProjects>(labPath(lab, 'progress'), { signal }),
      meta: { topics: clientId === null ? [] : [`client:${clientId}`] },
    }),
}

/** A report of one's own as a file; its name says project, number and date. */
export function ownReportAddress(lab: string, report: string): string {
  return labPath(lab, 'own-reports', report, 'pdf')
}
