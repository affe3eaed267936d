'use client'

import type { DesignObservations } from '@curebook/contract/observations'
import { queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

export const observationQueries = {
  ofDesign: (lab: string, designId: string) =>
    queryOptions({
      queryKey: [lab, 'designs', 'observations', designId],
      queryFn: ({ signal }) =>
        getJson<DesignObservations>(labPath(lab, 'designs', designId, 'observations'), { signal }),
      meta: { topics: [`design:${designId}`] },
    }),
}
