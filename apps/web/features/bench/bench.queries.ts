'use client'

import type {
  BenchLookup,
  BenchQueue,
  PostStepEvents,
  Rack,
  ReplaceTest,
  TestView,
  VoidTest,
} from '@curebook/contract/bench'
import type { Result } from '@curebook/contract/results'
import type { BulkOutcome } from '@curebook/contract/schedule'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

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

/** One act for many specimens. Sent again with the same ids it is the same act. */
export function useConfirmActs(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: PostStepEvents) =>
      postJson<BulkOutcome>(labPath(lab, 'step-events'), {
        ...body,
        time: { ...body.time, sentAt: new Date().toISOString() },
      }),
    onSuccess: (_, { rows }) =>
      refreshTopics(client, ['bench', 'schedule', 'design', ...rows.map(({ testId }) => `test:${testId}`)]),
  })
}

export function useVoidTest(lab: string, testId: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: VoidTest) => postJson<unknown>(labPath(lab, 'tests', testId, 'void'), body),
    onSuccess: () => refreshTopics(client, topicsOfTest(testId)),
  })
}

/** Puts a spare in the place of a voided specimen. */
export function useReplaceTest(lab: string, testId: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: ReplaceTest) => postJson<unknown>(labPath(lab, 'tests', testId, 'replace'), body),
    onSuccess: (_, { spareTestId }) => refreshTopics(client, [...topicsOfTest(testId), `test:${spareTestId}`]),
  })
}
