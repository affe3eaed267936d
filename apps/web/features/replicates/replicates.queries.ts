import type { Design } from '@curebook/contract/designs'
import type { Replicates } from '@curebook/contract/replicates'
import { queryOptions } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'

export const replicateQueries = {
  of: (lab: string, { id, revision, revisionId }: Pick<Design, 'id' | 'revision' | 'revisionId'>) =>
    queryOptions({
      queryKey: [lab, 'replicates', id, revision],
      queryFn: ({ signal }) =>
        getJson<Replicates>(labPath(lab, 'designs', id, 'replicates'), { signal, query: { revision } }),
      meta: { topics: [`design:${id}`, `revision:${revisionId}`, 'specifications'] },
    }),
}
