'use client'

import type { SearchAnswer } from '@curebook/contract/search'
import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

export const searchQueries = {
  /** @param q two signs or more */
  find: (lab: string, q: string) =>
    queryOptions({
      queryKey: [lab, 'search', q],
      queryFn: ({ signal }) => getJson<SearchAnswer>(labPath(lab, 'search'), { signal, query: { q } }),
      enabled: q.length >= 2,
      placeholderData: keepPreviousData,
      meta: { topics: ['projects', 'designs', 'materials', 'people'] },
    }),
}
