'use client'

import type { Label, PrintLabels } from '@curebook/contract/labels'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export const labelQueries = {
  label: (lab: string, item: string) =>
    queryOptions({
      queryKey: [lab, 'labels', item],
      queryFn: ({ signal }) => getJson<Label>(labPath(lab, 'items', item, 'label'), { signal }),
      meta: { topics: [`label:${item}`] },
    }),
}

/** @param key made once for each print: sent again, it is the same print */
export function usePrintLabels(lab: string, item: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: ({ body, key }: { body: PrintLabels; key: string }) =>
      postJson<Label>(labPath(lab, 'items', item, 'label-prints'), body, { idempotencyKey: key }),
    onSuccess: () => refreshTopics(client, [`label:${item}`]),
  })
}
