'use client'

import type {
  EditSpecification,
  SpecificationHistory,
  WithdrawSpecification,
  WriteSpecification,
} from '@curebook/contract/own-specifications'
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
  one: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'specifications', 'one', id],
      queryFn: ({ signal }) => getJson<SpecificationHistory>(labPath(lab, 'specifications', id), { signal }),
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

export function useWriteSpecification(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: WriteSpecification) => postJson<Specification>(labPath(lab, 'specifications', 'own'), body),
    onSuccess: () => refreshTopics(client, ['specifications']),
  })
}

/** The next version, after the one with this id. */
export function useEditSpecification(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: EditSpecification) =>
      postJson<Specification>(labPath(lab, 'specifications', id, 'versions'), body),
    // A refusal tells of somebody else's version: it must be here to be shown beside what was typed.
    onSettled: () => refreshTopics(client, ['specifications']),
  })
}

export function useWithdrawSpecification(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: WithdrawSpecification) =>
      postJson<SpecificationHistory>(labPath(lab, 'specifications', id, 'withdraw'), body),
    onSettled: () => refreshTopics(client, ['specifications']),
  })
}
