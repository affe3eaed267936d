'use client'

import type { AnswerQuestion, AskQuestion, Question } from '@curebook/contract/questions'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

type Questions = { readonly items: readonly Question[]; readonly next: string | null }

export const questionQueries = {
  ofProject: (lab: string, projectId: string) =>
    queryOptions({
      queryKey: [lab, 'questions', projectId],
      queryFn: ({ signal }) => getJson<Questions>(labPath(lab, 'questions'), { signal, query: { projectId } }),
      meta: { topics: ['questions', `project:${projectId}`] },
    }),
  /** What waits for an answer, of all projects. */
  open: (lab: string) =>
    queryOptions({
      queryKey: [lab, 'questions', 'open'],
      queryFn: ({ signal }) => getJson<Questions>(labPath(lab, 'questions'), { signal, query: { open: true } }),
      meta: { topics: ['questions'] },
    }),
}

export function useAnswerQuestion(lab: string, { id, projectId }: Pick<Question, 'id' | 'projectId'>) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: AnswerQuestion) => postAs<Question>(me, labPath(lab, 'questions', id, 'answers'), body),
    onSuccess: () => refreshTopics(client, ['questions', `project:${projectId}`]),
  })
}

/** By a client, whose screens hear one topic: that something of theirs changed. */
export function useAskQuestion(lab: string, clientId: string | null) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: AskQuestion) => postAs<Question>(me, labPath(lab, 'own-questions'), body),
    onSuccess: () => refreshTopics(client, clientId === null ? [] : [`client:${clientId}`]),
  })
}
