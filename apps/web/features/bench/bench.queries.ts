'use client'

import type {
  BenchLookup,
  BenchQueue,
  Rack,
  ReplaceTest,
  TestView,
  VoidTest,
  CorrectAct,
} from '@curebook/contract/bench'
import type { Result } from '@curebook/contract/results'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { refreshTopics } from '#lib/live-topics.ts'
import { postAs } from '#lib/post-as.ts'

export type RackQuery = {
  readonly methodKey: string
  readonly stepKey: string
  readonly readingKey: string
  readonly designId: string
}

export const benchQueries = {
  /** What waits for me (or for everybody), with the laboratory's clock. */
  queue: (lab: string, whose: 'mine' | 'all' = 'mine') =>
    queryOptions({
      queryKey: [lab, 'bench', 'queue', whose],
      queryFn: ({ signal }) => getJson<BenchQueue>(labPath(lab, 'bench', 'queue'), { signal, query: { whose } }),
      meta: { topics: ['bench'] },
    }),
  test: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'tests', id],
      queryFn: ({ signal }) => getJson<TestView>(labPath(lab, 'tests', id), { signal }),
      enabled: id !== '',
      meta: { topics: [`test:${id}`, 'deviations'] },
    }),
  rack: (lab: string, { methodKey, stepKey, readingKey, designId }: RackQuery) =>
    queryOptions({
      queryKey: [lab, 'bench', 'rack', methodKey, stepKey, readingKey, designId],
      queryFn: ({ signal }) =>
        getJson<Rack>(labPath(lab, 'bench', 'rack'), { signal, query: { methodKey, stepKey, readingKey, designId } }),
      enabled: readingKey !== '',
      meta: { topics: ['bench'] },
    }),
  result: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'results', id],
      queryFn: ({ signal }) => getJson<Result>(labPath(lab, 'results', id), { signal }),
      meta: { topics: ['bench'] },
    }),
}

/** What a typed or scanned code stands for in this laboratory. */
export function lookUpCode(lab: string, code: string): Promise<BenchLookup> {
  return getJson<BenchLookup>(labPath(lab, 'bench', 'lookup'), { query: { code } })
}

/**
 * The spare that a typed code means. A code leads to the batch of its specimen first; the specimen's own test is then the
 * one beside it.
 */
export async function findSpare(
  lab: string,
  code: string,
): Promise<{ readonly testId: string } | { readonly sentence: string }> {
  const found = await lookUpCode(lab, code)
  if (found.testId === null) return { sentence: found.sentence }
  const view = await getJson<TestView>(labPath(lab, 'tests', found.testId))
  return { testId: view.item.code === found.code ? found.testId : (view.relatedTestId ?? found.testId) }
}

/** What changes on screen when something happened to a test. */
export function topicsOfTest(testId: string): readonly string[] {
  return [`test:${testId}`, 'bench', 'schedule', 'design']
}

/** Puts a start or end at the time at which it really happened. */
export function useCorrectAct(lab: string, testId: string, act: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: CorrectAct) =>
      postAs<TestView>(me, labPath(lab, 'tests', testId, 'acts', act, 'corrections'), body),
    onSuccess: () => refreshTopics(client, ['bench', 'schedule', 'design', 'loads', 'deviations', `test:${testId}`]),
  })
}

export function useVoidTest(lab: string, testId: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: VoidTest) => postAs<unknown>(me, labPath(lab, 'tests', testId, 'void'), body),
    onSuccess: () => refreshTopics(client, topicsOfTest(testId)),
  })
}

/** Puts a spare in the place of a voided specimen. */
export function useReplaceTest(lab: string, testId: string) {
  const client = useQueryClient()
  const { me } = useLaboratory()
  return useMutation({
    mutationFn: (body: ReplaceTest) => postAs<unknown>(me, labPath(lab, 'tests', testId, 'replace'), body),
    onSuccess: (_, { spareTestId }) => refreshTopics(client, [...topicsOfTest(testId), `test:${spareTestId}`]),
  })
}
