'use client'

import type { PutIn } from '@curebook/contract/put-in'
import { queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

export const putInQueries = {
  one: (lab: string, { designId, methodKey }: { designId: string; methodKey: string }) =>
    queryOptions({
      queryKey: [lab, 'put-in', designId, methodKey],
      queryFn: ({ signal }) =>
        getJson<PutIn>(labPath(lab, 'bench', 'put-in'), { signal, query: { designId, methodKey } }),
      meta: { topics: ['bench', `design:${designId}`] },
    }),
}
