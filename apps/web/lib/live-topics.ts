import type { Query, QueryClient } from '@tanstack/react-query'

/**
 * A query names in `meta.topics` what it shows, as the API names it: a list (`designs`), one thing (`design:<id>`), or
 * anything of a kind (`design`). An event about one thing concerns queries on that thing and on its kind.
 */
export function concerns(queryTopics: readonly string[], eventTopics: readonly string[]): boolean {
  return queryTopics.some((wanted) =>
    eventTopics.some((topic) => topic === wanted || topic.startsWith(`${wanted}:`) || wanted.startsWith(`${topic}:`)),
  )
}

/**
 * Refetches what is on screen and marks the rest as stale, for queries that the topics concern. A first fetch under way may
 * have been answered before the change: it is not taken back, so it is made again once it has ended.
 */
export async function refreshTopics(client: QueryClient, topics: readonly string[]): Promise<void> {
  const predicate = ({ meta }: Query) => Array.isArray(meta?.topics) && concerns(meta.topics as string[], topics)
  const first = client
    .getQueryCache()
    .findAll({ predicate, fetchStatus: 'fetching' })
    .filter(({ state }) => state.data === undefined)
  await client.invalidateQueries({ predicate })
  if (first.length > 0) await client.invalidateQueries({ predicate: (query) => first.includes(query) })
}
