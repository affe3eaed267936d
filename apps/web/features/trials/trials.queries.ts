'use client'

import type { Design } from '@curebook/contract/designs'
import type { EnterTrialCup, TrialCup, TrialCups, UseAsBase } from '@curebook/contract/trials'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { topicsOfDesign } from '#features/designs/designs.queries.ts'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const trialQueries = {
  /** Cups of a design up to a revision. */
  cups: (lab: string, { id, revision }: Pick<Design, 'id' | 'revision'>) =>
    queryOptions({
      queryKey: [lab, 'trials', id, revision],
      queryFn: ({ signal }) =>
        getJson<TrialCups>(labPath(lab, 'designs', id, 'trial-cups'), { signal, query: { revision } }),
      // A batch begun at the bench settles the shares.
      meta: { topics: [`design:${id}`, 'bench'] },
    }),
}

export function useEnterCup(lab: string, design: Design) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: EnterTrialCup) => postAs<TrialCup>(me, labPath(lab, 'designs', design.id, 'trial-cups'), body),
    onSuccess: () => refreshTopics(client, [`design:${design.id}`]),
  })
}

export function useCupAsBase(lab: string, design: Design) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: UseAsBase) =>
      postAs<TrialCups['base']>(me, labPath(lab, 'designs', design.id, 'trial-base'), body),
    onSuccess: () => refreshTopics(client, topicsOfDesign(design)),
  })
}
