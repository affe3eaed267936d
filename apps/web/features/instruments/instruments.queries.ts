'use client'

import type {
  AddCalibration,
  AddFactor,
  Calibration,
  CreateInstrument,
  Instrument,
  InstrumentFactor,
  UpdateInstrument,
} from '@curebook/contract/instruments'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, patchJson, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Row> = { readonly items: readonly Row[]; readonly next: string | null }

export const instrumentQueries = {
  list: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'instruments', 'list'],
      queryFn: ({ signal }) => getJson<Page<Instrument>>(labPath(lab, 'instruments'), { signal }),
      meta: { topics: ['instruments'] },
    }),
  one: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'instruments', 'one', id],
      queryFn: ({ signal }) => getJson<Instrument>(labPath(lab, 'instruments', id), { signal }),
      meta: { topics: [`instrument:${id}`] },
    }),
}

/** What shows an instrument: the list and its page. */
function topicsOf(id: string): readonly string[] {
  return ['instruments', `instrument:${id}`]
}

export function useCreateInstrument(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CreateInstrument) => postJson<Instrument>(labPath(lab, 'instruments'), body),
    onSuccess: ({ id }) => refreshTopics(client, topicsOf(id)),
  })
}

export function useUpdateInstrument(lab: string, { id, version }: Pick<Instrument, 'id' | 'version'>) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: UpdateInstrument) =>
      patchJson<Instrument>(labPath(lab, 'instruments', id), body, { ifMatch: version }),
    onSettled: () => refreshTopics(client, topicsOf(id)),
  })
}

export function useAddFactor(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: AddFactor) => postJson<InstrumentFactor>(labPath(lab, 'instruments', id, 'factors'), body),
    onSettled: () => refreshTopics(client, topicsOf(id)),
  })
}

export function useAddCalibration(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: AddCalibration) => postJson<Calibration>(labPath(lab, 'instruments', id, 'calibrations'), body),
    onSuccess: () => refreshTopics(client, topicsOf(id)),
  })
}
