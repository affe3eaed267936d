'use client'

import type {
  PinnedSpecification,
  ProjectSpecifications,
  SetProjectSpecification,
} from '@curebook/contract/project-specifications'
import type { Specification } from '@curebook/contract/specifications'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export const projectSpecificationQueries = {
  /** What the project stands on, and what has become of that since. */
  ofProject: (lab: string, projectId: string) =>
    queryOptions({
      queryKey: [lab, 'project-specifications', projectId],
      queryFn: ({ signal }) =>
        getJson<ProjectSpecifications>(labPath(lab, 'projects', projectId, 'specifications'), { signal }),
      meta: { topics: [`project:${projectId}`, 'specifications'] },
    }),
  /** What it may stand on: the laboratory's, and this contract's own copies; without a project the laboratory's alone. */
  choices: (lab: string, projectId: string) =>
    queryOptions({
      queryKey: [lab, 'project-specifications', 'choices', projectId],
      queryFn: ({ signal }) =>
        getJson<{ readonly items: readonly Specification[] }>(labPath(lab, 'specifications'), {
          signal,
          query: projectId === '' ? {} : { projectId },
        }),
      meta: { topics: ['specifications'] },
    }),
}

export function useSetProjectSpecification(lab: string, projectId: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: SetProjectSpecification) =>
      postAs<PinnedSpecification>(me, labPath(lab, 'projects', projectId, 'specifications'), body),
    // Refused because somebody else set it: what stands now is read again, and by each design whether it stands on another one.
    onSettled: () => refreshTopics(client, ['projects', `project:${projectId}`, 'specifications', 'design']),
  })
}
