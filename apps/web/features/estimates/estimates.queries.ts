'use client'

import type { Design } from '@curebook/contract/designs'
import type { EstimateField, Estimates } from '@curebook/contract/estimates'
import { queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

/** What was typed, by field; what is left out was not typed. */
export type EstimateQuestion = Readonly<Partial<Record<EstimateField, string>>>

export const estimateQueries = {
  /** A question: nothing of it is kept. Another gradation or residue answers it anew. */
  of: (
    lab: string,
    { id, revision, revisionId }: Pick<Design, 'id' | 'revision' | 'revisionId'>,
    asked: EstimateQuestion,
  ) =>
    queryOptions({
      queryKey: [lab, 'estimates', id, revision, asked],
      queryFn: ({ signal }) =>
        getJson<Estimates>(labPath(lab, 'designs', id, 'estimates'), { signal, query: { revision, ...asked } }),
      meta: { topics: [`design:${id}`, `revision:${revisionId}`] },
    }),
}
