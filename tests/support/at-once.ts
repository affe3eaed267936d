import { expect, vi } from 'vitest'
import { connect } from './as-login.ts'

type Held = {
  /** Rows to hold until everybody waits, like `select from design where id = $1 for update`. */
  readonly sql: string
  readonly values: readonly unknown[]
}

/**
 * Lets acts meet: rows that all of them lock are held until each waits on a connection of its own, in the order given. What
 * came of each, as `Promise.allSettled` says it.
 */
export async function atOnce<T extends readonly (() => Promise<unknown>)[]>(
  ownerUrl: string,
  { sql, values }: Held,
  ...acts: T
): Promise<{ [K in keyof T]: PromiseSettledResult<Awaited<ReturnType<T[K]>>> }> {
  const [holder, watcher] = [await connect(ownerUrl), await connect(ownerUrl)]
  const waiting = "select pid from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'"
  const begun: Promise<unknown>[] = []
  try {
    await holder.query('begin')
    await holder.query(sql, [...values])
    for (const [index, act] of acts.entries()) {
      const promise = act()
      promise.catch(() => undefined)
      begun.push(promise)
      await vi.waitFor(async () => expect((await watcher.query(waiting)).rows).toHaveLength(index + 1), {
        timeout: 20_000,
        interval: 20,
      })
    }
  } finally {
    await Promise.all([holder.end(), watcher.end()])
  }
  return Promise.allSettled(begun) as Promise<{ [K in keyof T]: PromiseSettledResult<Awaited<ReturnType<T[K]>>> }>
}
