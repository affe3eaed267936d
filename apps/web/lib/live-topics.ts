import type { QueryClient } from '@tanstack/react-query'

/**
 * A query names in `meta.topics` what it shows, as the API names it: a list (`designs`), one thing (`design:<id>`), or
 * anything of a kind (`design`). An event about one thing concerns queries on that thing and on its kind.
 */
export function concerns(queryTopics: readonly string[], eventTopics: readonly string[]): boolean {
  return queryTopics.some((wanted) =>
    eventTopics.some((topic) => topic === wanted || topic.startsWith(`${wanted}:`) || wanted.startsWith(`${topic}:`)),
  )
}

/** Refetches what is on screen and marks the rest as stale, for queries that the topics concern. */
export function refreshTopics(client: QueryClient, topics: readonly string[]): Promise<void> {
  return client.invalidateQueries({
    predicate: ({ meta }) => Array.isArray(meta?.topics) && concerns(meta.topics as string[], topics),
  })
}
