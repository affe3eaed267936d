'use client'

import type { Client, CreateClient } from '@curebook/contract/projects'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Row> = { readonly items: readonly Row[]; readonly next: string | null }

export const clientQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'clients'],
      queryFn: ({ signal }) => getJson<Page<Client>>(labPath(lab, 'clients'), { signal }),
      meta: { topics: ['clients'] },
    }),
}

export function useCreateClient(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CreateClient) => postJson<Client>(labPath(lab, 'clients'), body),
    onSuccess: () => refreshTopics(client, ['clients']),
  })
}
