'use client'

import type { CreateEdition, Edition, Method as MethodAnswer, MethodExample } from '@curebook/contract/methods'
import type { StepDeclaration, WindowDeclaration } from '@curebook/trade/procedure/declaration'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Row> = { readonly items: readonly Row[]; readonly next: string | null }
/** The contract passes steps and windows through as the method file declares them. */
export type Method = Omit<MethodAnswer, 'steps' | 'windows'> & {
  readonly steps: readonly StepDeclaration[]
  readonly windows: readonly WindowDeclaration[]
}

export const methodQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'methods', 'list'],
      queryFn: ({ signal }) => getJson<Page<Method>>(labPath(lab, 'methods'), { signal }),
      meta: { topics: ['methods'] },
    }),
  one: (lab: string, key: string) =>
    queryOptions({
      queryKey: [lab, 'methods', 'one', key],
      queryFn: ({ signal }) => getJson<Method>(labPath(lab, 'methods', key), { signal }),
      meta: { topics: ['methods'] },
    }),
  /** Shipped with the product: it changes only with a new version of it. */
  example: (lab: string, key: string) =>
    queryOptions({
      queryKey: [lab, 'methods', 'example', key],
      queryFn: ({ signal }) => getJson<MethodExample>(labPath(lab, 'methods', key, 'example'), { signal }),
      staleTime: Infinity,
    }),
}

export function useCreateEdition(lab: string, method: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CreateEdition) => postJson<Edition>(labPath(lab, 'methods', method, 'editions'), body),
    // A refusal tells of somebody else's edition: it must be here to start from.
    onSettled: () => refreshTopics(client, ['methods']),
  })
}
