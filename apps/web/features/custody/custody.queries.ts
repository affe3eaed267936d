'use client'

import type { CreatePlace, Item, Place, RecordAct, Stock } from '@curebook/contract/custody'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Row> = { readonly items: readonly Row[]; readonly next: string | null }

export const custodyQueries = {
  item: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'items', id],
      queryFn: ({ signal }) => getJson<Item>(labPath(lab, 'items', id), { signal }),
      meta: { topics: [`item:${id}`, 'materials'] },
    }),
  places: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'places'],
      queryFn: ({ signal }) => getJson<Page<Place>>(labPath(lab, 'places'), { signal }),
      meta: { topics: ['places'] },
    }),
  stock: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'stock'],
      queryFn: ({ signal }) => getJson<Page<Stock>>(labPath(lab, 'stock'), { signal }),
      // What a batch weighs is told by its test.
      meta: { topics: ['materials', 'test'] },
    }),
}

export function useRecordAct(lab: string, itemId: string) {
  const client = useQueryClient()
  const topics = ['materials', `item:${itemId}`]
  return useMutation({
    mutationFn: (body: RecordAct) =>
      postJson<Item>(labPath(lab, 'items', itemId, 'custody'), {
        ...body,
        time: { ...body.time, sentAt: new Date().toISOString() },
      }),
    onSuccess: () => refreshTopics(client, topics),
    // Refused because something happened meanwhile: what stands now is shown beside the refusal.
    onError: () => refreshTopics(client, topics),
  })
}

export function useCreatePlace(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CreatePlace) => postJson<Place>(labPath(lab, 'places'), body),
    onSuccess: () => refreshTopics(client, ['places']),
  })
}
