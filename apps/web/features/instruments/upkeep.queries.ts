'use client'

import type { AddCheck, InstrumentCheck, InstrumentChecks } from '@curebook/contract/instrument-checks'
import type { InstrumentLine, InstrumentLines, SetInstrumentLine } from '@curebook/contract/instrument-lines'
import type { FitPart, PartFitting, PartFittings } from '@curebook/contract/parts'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const upkeepQueries = {
  parts: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'instruments', 'parts', id],
      queryFn: ({ signal }) => getJson<PartFittings>(labPath(lab, 'instruments', id, 'parts'), { signal }),
      meta: { topics: [`instrument:${id}`] },
    }),
  checks: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'instruments', 'checks', id],
      queryFn: ({ signal }) => getJson<InstrumentChecks>(labPath(lab, 'instruments', id, 'checks'), { signal }),
      meta: { topics: [`instrument:${id}`] },
    }),
  lines: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'instruments', 'lines', id],
      queryFn: ({ signal }) => getJson<InstrumentLines>(labPath(lab, 'instruments', id, 'lines'), { signal }),
      meta: { topics: [`instrument:${id}`] },
    }),
}

/** What shows a machine's upkeep: its page, and the bench where it is chosen. */
function topicsOf(id: string): readonly string[] {
  return ['instruments', `instrument:${id}`, 'bench', 'test']
}

export function useFitPart(lab: string, id: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: FitPart) => postAs<PartFitting>(me, labPath(lab, 'instruments', id, 'parts'), body),
    onSettled: () => refreshTopics(client, topicsOf(id)),
  })
}

export function useAddCheck(lab: string, id: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: AddCheck) => postAs<InstrumentCheck>(me, labPath(lab, 'instruments', id, 'checks'), body),
    onSettled: () => refreshTopics(client, topicsOf(id)),
  })
}

export function useSetLine(lab: string, id: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: SetInstrumentLine) => postAs<InstrumentLine>(me, labPath(lab, 'instruments', id, 'lines'), body),
    onSettled: () => refreshTopics(client, topicsOf(id)),
  })
}
