'use client'

import type { ReportCheck } from '@curebook/contract/reports'
import { queryOptions } from '@tanstack/react-query'
import { getJson } from '#lib/api-client.ts'

export const reportCheckQueries = {
  /** Whether a report is genuine and current. Needs no sign-in and gives no result. */
  of: (code: string) =>
    queryOptions({
      queryKey: ['check', code],
      queryFn: ({ signal }) => getJson<ReportCheck>(`/api/check/${encodeURIComponent(code)}`, { signal }),
      staleTime: 0,
      retry: false,
    }),
}
