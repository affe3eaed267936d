'use client'

import type { CastingPlan } from '@curebook/contract/casting'
import { queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

export const castingQueries = {
  plan: (lab: string, designId: string) =>
    queryOptions({
      queryKey: [lab, 'casting', designId],
      queryFn: ({ signal }) => getJson<CastingPlan>(labPath(lab, 'bench', 'casting', designId), { signal }),
      meta: { topics: ['bench', `design:${designId}`] },
    }),
}
