import pg from 'pg'

/**
 * How many statements some work sends to the database, whichever way, or how many of them read like this; for tests in which
 * nothing else asks meanwhile.
 */
export async function countStatements(work: () => Promise<unknown>, like = /(?:)/): Promise<number> {
  let count = 0
  const { query } = pg.Client.prototype
  pg.Client.prototype.query = function counted(this: pg.Client, ...sent: unknown[]) {
    const [statement] = sent as [string | { text: string }]
    if (like.test(typeof statement === 'string' ? statement : statement.text)) count += 1
    return (query as (...sent: unknown[]) => unknown).apply(this, sent)
  } as typeof query
  try {
    await work()
    return count
  } finally {
    pg.Client.prototype.query = query
  }
}
