'use client'

import type {
  ImportInstruments,
  ImportPreview,
  InstrumentImport,
  TakeBackImport,
} from '@curebook/contract/instrument-imports'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export const importQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'instrument-imports'],
      queryFn: ({ signal }) =>
        getJson<{ readonly items: readonly InstrumentImport[] }>(labPath(lab, 'instrument-imports'), { signal }),
      meta: { topics: ['instruments'] },
    }),
}

/** What a file would bring in; asked anew when the file is read again, since codes are taken meanwhile. */
export function usePreviewImport(lab: string) {
  return useMutation({
    mutationFn: (content: string) =>
      postJson<ImportPreview>(labPath(lab, 'instrument-imports', 'preview'), { content }),
  })
}

export function useImportInstruments(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: ImportInstruments) => postJson<InstrumentImport>(labPath(lab, 'instrument-imports'), body),
    onSuccess: () => refreshTopics(client, ['instruments']),
  })
}

export function useTakeBackImport(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: TakeBackImport) =>
      postJson<InstrumentImport>(labPath(lab, 'instrument-imports', id, 'withdrawal'), body),
    onSuccess: () => refreshTopics(client, ['instruments']),
  })
}
