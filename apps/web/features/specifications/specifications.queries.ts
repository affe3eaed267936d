'use client'

import type { AdoptSpecification, BuiltInSpecification, Specification } from '@curebook/contract/specifications'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Row> = { readonly items: readonly Row[]; readonly next: string | null }

export const specificationQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'specifications'],
      queryFn: ({ signal }) => getJson<Page<Specification>>(labPath(lab, 'specifications'), { signal }),
      meta: { topics: ['specifications'] },
    }),
  /** Shipped with the product: it changes only with a new version of it. */
  builtIn: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'specifications', 'built-in'],
      queryFn: ({ signal }) =>
        getJson<Page<BuiltInSpecification>>(labPath(lab, 'specifications', 'built-in'), { signal }),
      staleTime: Infinity,
    }),
}

export function useAdoptSpecification(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: AdoptSpecification) => postJson<Specification>(labPath(lab, 'specifications'), body),
    onSuccess: () => refreshTopics(client, ['specifications']),
  })
}
