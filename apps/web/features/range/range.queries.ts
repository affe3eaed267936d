'use client'

import type { Design } from '@curebook/contract/designs'
import type { EnterGradation, Gradation } from '@curebook/contract/gradations'
import type { EnterPanelResult, PanelResult } from '@curebook/contract/panel-results'
import type { AskWhatIf, RangeView, WhatIf } from '@curebook/contract/range'
import type { Recommend, Recommendation } from '@curebook/contract/recommendations'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { sendFile } from '#features/attachments/attachments.queries.ts'
import { topicsOfDesign } from '#features/designs/designs.queries.ts'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

/** A revision, by the design's id and its number. */
type Of = Pick<Design, 'id' | 'revision' | 'revisionId'>

export const rangeQueries = {
  range: (lab: string, { id, revision, revisionId }: Of) =>
    queryOptions({
      queryKey: [lab, 'range', id, revision],
      queryFn: ({ signal }) =>
        getJson<RangeView>(labPath(lab, 'designs', id, 'range'), { signal, query: { revision } }),
      meta: { topics: [`design:${id}`, `revision:${revisionId}`] },
    }),
  /** A question: what the range would be without these tests' specimens. Nothing of it is kept. */
  whatIf: (lab: string, { id, revision, revisionId }: Of, without: readonly string[]) =>
    queryOptions({
      queryKey: [lab, 'range', 'what-if', id, revision, [...without].sort().join(' ')],
      queryFn: () => {
        const body: AskWhatIf = { without: [...without] }
        return postJson<WhatIf>(labPath(lab, 'designs', id, 'what-if'), body, { query: { revision } })
      },
      meta: { topics: [`design:${id}`, `revision:${revisionId}`] },
    }),
  recommendation: (lab: string, { id, revision, revisionId }: Of) =>
    queryOptions({
      queryKey: [lab, 'range', 'recommendation', id, revision],
      queryFn: ({ signal }) =>
        getJson<{ recommendation: Recommendation | null }>(labPath(lab, 'designs', id, 'recommendation'), {
          signal,
          query: { revision },
        }),
      meta: { topics: [`design:${id}`, `revision:${revisionId}`] },
    }),
}

export function useRecommend(lab: string, design: Design) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: Recommend) =>
      postAs<Recommendation>(me, labPath(lab, 'designs', design.id, 'recommendations'), body),
    onSuccess: () => refreshTopics(client, topicsOfDesign(design)),
  })
}

/** @param chosen a file to be sent first, under its own id */
export function useEnterGradation(lab: string, design: Design, chosen: { id: string; file: File } | null) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: async (body: EnterGradation) => {
      if (chosen !== null) await sendFile({ id: lab, me }, { ...chosen, field: 'attachmentId' })
      return postAs<Gradation>(me, labPath(lab, 'designs', design.id, 'gradations'), body)
    },
    onSuccess: () => refreshTopics(client, topicsOfDesign(design)),
  })
}

/** @param chosen a file to be sent first, under its own id */
export function useEnterPanelResult(lab: string, design: Design, chosen: { id: string; file: File } | null) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: async (body: EnterPanelResult) => {
      if (chosen !== null) await sendFile({ id: lab, me }, { ...chosen, field: 'attachmentId' })
      return postAs<PanelResult>(me, labPath(lab, 'designs', design.id, 'panel-results'), body)
    },
    onSuccess: () => refreshTopics(client, topicsOfDesign(design)),
  })
}
