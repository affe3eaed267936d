'use client'

import type { CorrectReceipt, CreatePlace, Item, Place, RecordAct, Stock } from '@curebook/contract/custody'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

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
  const { me } = useLaboratory()
  const topics = ['materials', `item:${itemId}`]
  return useMutation({
    mutationFn: (body: RecordAct) => postAs<Item>(me, labPath(lab, 'items', itemId, 'custody'), body),
    onSuccess: () => refreshTopics(client, topics),
    // Refused because something happened meanwhile: what stands now is shown beside the refusal.
    onError: () => refreshTopics(client, topics),
  })
}

export function useCorrectReceipt(lab: string, itemId: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  const topics = ['materials', `item:${itemId}`]
  return useMutation({
    mutationFn: (body: CorrectReceipt) => postAs<Item>(me, labPath(lab, 'items', itemId, 'receipt-corrections'), body),
    onSuccess: () => refreshTopics(client, topics),
    // Refused because it was corrected meanwhile: what stands now is shown beside the refusal.
    onError: () => refreshTopics(client, topics),
  })
}

export function useCreatePlace(lab: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: CreatePlace) => postAs<Place>(me, labPath(lab, 'places'), body),
    onSuccess: () => refreshTopics(client, ['places']),
  })
}
