'use client'

import type {
  HeadPrint,
  LedgerEntryView,
  LedgerHead,
  LedgerVerdict,
  PrintHead,
  VerifyLedger,
} from '@curebook/contract/ledger'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'

export type LedgerFilter = { readonly cursor?: string; readonly subjectKind?: string; readonly subjectId?: string }

export const ledgerQueries = {
  entries: (lab: string, filter: LedgerFilter) =>
    queryOptions({
      queryKey: [lab, 'ledger', 'entries', filter],
      queryFn: ({ signal }) =>
        getJson<{ items: readonly LedgerEntryView[]; next: string | null }>(labPath(lab, 'ledger', 'entries'), {
          signal,
          query: { ...filter, limit: 50 },
        }),
      // Everything that happens adds to it: the screen says so and shows it on wish, rows do not move by themselves.
      meta: { topics: ['ledger'] },
    }),
  head: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'ledger', 'head'],
      queryFn: ({ signal }) => getJson<LedgerHead>(labPath(lab, 'ledger', 'head'), { signal }),
      staleTime: 0,
      meta: { topics: ['ledger'] },
    }),
  prints: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'ledger', 'prints'],
      queryFn: ({ signal }) => getJson<readonly HeadPrint[]>(labPath(lab, 'ledger', 'head-prints'), { signal }),
      meta: { topics: ['ledger'] },
    }),
}

export function useVerifyLedger(lab: string) {
  return useMutation({
    mutationFn: (body: VerifyLedger) => postJson<LedgerVerdict>(labPath(lab, 'ledger', 'verify'), body),
  })
}

export function usePrintHead(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: PrintHead) => postJson<HeadPrint>(labPath(lab, 'ledger', 'head-prints'), body),
    onSuccess: () => client.invalidateQueries({ queryKey: [lab, 'ledger'] }),
  })
}
