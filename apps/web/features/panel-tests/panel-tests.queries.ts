'use client'

import type { Design, PlanMaterialTest, PlanSeries, SpecimenRow } from '@curebook/contract/designs'
import type { PanelTests } from '@curebook/contract/panel-tests'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { useRef } from 'react'
import { topicsOfDesign } from '#features/designs/designs.queries.ts'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { newId } from '#lib/new-id.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export const panelTestQueries = {
  of: (lab: string, { id, revision, revisionId }: Pick<Design, 'id' | 'revision' | 'revisionId'>) =>
    queryOptions({
      queryKey: [lab, 'panel-tests', id, revision],
      queryFn: ({ signal }) =>
        getJson<PanelTests>(labPath(lab, 'designs', id, 'panel-tests'), { signal, query: { revision } }),
      meta: { topics: [`design:${id}`, `revision:${revisionId}`, 'schedule', 'specifications'] },
    }),
}

/** The same plan sent again after a lost answer is the same plan; a changed one is another, under a key of its own. */
export function usePlanPanelTest(lab: string, design: Design) {
  const client = useQueryClient()
  const sent = useRef({ body: '', key: '' })
  return useMutation({
    // A test of a mix is planned at a content like the series; one of the materials stands apart from every content.
    mutationFn: (body: PlanSeries | PlanMaterialTest) => {
      const route = 'contents' in body ? 'plan' : 'material-tests'
      const path = labPath(lab, 'designs', design.id, route)
      const text = JSON.stringify(body)
      if (sent.current.body !== text) sent.current = { body: text, key: newId() }
      return postJson<{ items: SpecimenRow[] }>(path, body, { idempotencyKey: sent.current.key })
    },
    onSuccess: () => refreshTopics(client, [...topicsOfDesign(design), 'schedule', 'bench']),
  })
}
