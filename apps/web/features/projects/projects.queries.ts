'use client'

import type { CreateProject, Project, UpdateProject } from '@curebook/contract/projects'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, patchJson, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

type Page<Row> = { readonly items: readonly Row[]; readonly next: string | null }

export const projectQueries = {
  list: (lab: string, cursor: string) =>
    queryOptions({
      queryKey: [lab, 'projects', 'list', cursor],
      queryFn: ({ signal }) => getJson<Page<Project>>(labPath(lab, 'projects'), { signal, query: { cursor } }),
      meta: { topics: ['projects', 'project'] },
    }),
  one: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'projects', 'one', id],
      queryFn: ({ signal }) => getJson<Project>(labPath(lab, 'projects', id), { signal }),
      meta: { topics: [`project:${id}`] },
    }),
}

export function useCreateProject(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CreateProject) => postJson<Project>(labPath(lab, 'projects'), body),
    onSuccess: () => refreshTopics(client, ['projects']),
  })
}

/** `version` is the one that the edit starts from: an edit by somebody else meanwhile refuses this one (412). */
export function useUpdateProject(lab: string, id: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: ({ body, version }: { body: UpdateProject; version: number }) =>
      patchJson<Project>(labPath(lab, 'projects', id), body, { ifMatch: version }),
    onSettled: () => refreshTopics(client, ['projects', `project:${id}`]),
  })
}
