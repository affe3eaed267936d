'use client'

import type { AddCheck, InstrumentCheck, InstrumentChecks } from '@curebook/contract/instrument-checks'
import type { FitPart, PartFitting, PartFittings } from '@curebook/contract/parts'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

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
}

/** What shows a machine's upkeep: its page, and the bench where it is chosen. */
function topicsOf(id: string): readonly string[] {
  return ['instruments', `instrument:${id}`, 'bench', 'test']
}

export function useFitPart(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: FitPart) => postJson<PartFitting>(labPath(lab, 'instruments', id, 'parts'), sentNow(body)),
    onSettled: () => refreshTopics(client, topicsOf(id)),
  })
}

export function useAddCheck(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: AddCheck) => postJson<InstrumentCheck>(labPath(lab, 'instruments', id, 'checks'), sentNow(body)),
    onSettled: () => refreshTopics(client, topicsOf(id)),
  })
}

/** The device's clock at sending stands beside the time told, so that the server can put both right. */
function sentNow<Body extends { readonly time: FitPart['time'] }>(body: Body): Body {
  return { ...body, time: { ...body.time, sentAt: new Date().toISOString() } }
}
