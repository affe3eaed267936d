'use client'

import type { Validation } from '@curebook/contract/validation'
import { queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

export const validationQueries = {
  /** Runs all reference cases on the server; nothing of the laboratory bears on it, so no event renews it. */
  run: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'validation'],
      queryFn: ({ signal }) => getJson<Validation>(labPath(lab, 'validation'), { signal }),
      staleTime: Infinity,
    }),
}
