'use client'

import type { CreateMaterial, Material } from '@curebook/contract/materials'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Row> = { readonly items: readonly Row[]; readonly next: string | null }

export const materialQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'materials'],
      queryFn: ({ signal }) => getJson<Page<Material>>(labPath(lab, 'materials'), { signal }),
      meta: { topics: ['materials'] },
    }),
}

export function useCreateMaterial(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CreateMaterial) => postJson<Material>(labPath(lab, 'materials'), body),
    onSuccess: () => refreshTopics(client, ['materials']),
  })
}
