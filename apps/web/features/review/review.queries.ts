'use client'

import type { Design } from '@curebook/contract/designs'
import type { Acknowledge, NewRevision, Review, SendBack, Sign } from '@curebook/contract/review'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { topicsOfDesign } from '#features/designs/designs.queries.ts'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { newId } from '#lib/new-id.ts'
import { postAs } from '#lib/post-as.ts'
import { settleEach, type Fate } from './settle-each.ts'

export const reviewQueries = {
  review: (lab: string, { id, revision, revisionId }: Pick<Design, 'id' | 'revision' | 'revisionId'>) =>
    queryOptions({
      queryKey: [lab, 'review', id, revision],
      queryFn: ({ signal }) => getJson<Review>(labPath(lab, 'designs', id, 'review'), { signal, query: { revision } }),
      meta: { topics: [`design:${id}`, `revision:${revisionId}`, 'deviations'] },
    }),
}

function useAct<Body>(lab: string, design: Design, path: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: Body) => postAs<unknown>(me, labPath(lab, 'designs', design.id, path), body),
    onSuccess: () => refreshTopics(client, [...topicsOfDesign(design), 'reports']),
    // What was shown may be old: the newest content is read again, and its digest stands in the dialog.
    onError: () => refreshTopics(client, [`revision:${design.revisionId}`]),
  })
}

export const useAcknowledge = (lab: string, design: Design) => useAct<Acknowledge>(lab, design, 'acknowledgements')

/** One word for several points: each is sent and recorded by itself, and what became of each is told as it is known. */
export function useAcknowledgeEach(lab: string, design: Design) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: ({ keys, word, onFate }: { keys: readonly string[]; word: string; onFate: (fate: Fate) => void }) =>
      settleEach(
        keys,
        (pointKey) => {
          const body: Acknowledge = { id: newId(), pointKey, word }
          return postAs<unknown>(me, labPath(lab, 'designs', design.id, 'acknowledgements'), body)
        },
        onFate,
      ),
    onSettled: () => refreshTopics(client, [...topicsOfDesign(design), 'reports']),
  })
}
export const useSign = (lab: string, design: Design, act: 'check' | 'approve') => useAct<Sign>(lab, design, act)
export const useSendBack = (lab: string, design: Design) => useAct<SendBack>(lab, design, 'send-back')
export const useNewRevision = (lab: string, design: Design) => useAct<NewRevision>(lab, design, 'revisions')
