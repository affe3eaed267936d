/**
 * Refreshes once for what comes within `ms`: the many rows of one answer would else make the same pages ask again and again.
 * Resolves when that refresh is done.
 */
export function gatherTopics(refresh: (topics: readonly string[]) => Promise<void>, ms: number) {
  let open: { readonly topics: Set<string>; readonly done: Promise<void> } | undefined
  return (topics: readonly string[]): Promise<void> => {
    if (open === undefined) {
      const gathered = new Set<string>()
      const done = new Promise<void>((resolve) => setTimeout(resolve, ms)).then(() => {
        open = undefined
        return refresh([...gathered])
      })
      open = { topics: gathered, done }
    }
    for (const topic of topics) open.topics.add(topic)
    return open.done
  }
}
