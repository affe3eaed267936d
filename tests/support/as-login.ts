import pg from 'pg'

/** Session settings that row-level security reads; what is left out stays empty. */
export type Settings = { lab?: string; member?: string; account?: string; client?: string }

/** Runs `work` in a transaction with these settings and rolls back: what a login sees and may do, nothing kept. */
export async function asLogin<T>(client: pg.Client, settings: Settings, work: () => Promise<T>): Promise<T> {
  await client.query('begin')
  try {
    for (const [name, value] of Object.entries(settings))
      await client.query('select set_config($1, $2, true)', [`app.${name}`, value])
    return await work()
  } finally {
    await client.query('rollback')
  }
}

/** The SQLSTATE that a statement is refused with, or 'accepted'. */
export async function refusalOf(statement: Promise<unknown>): Promise<string> {
  return statement.then(
    () => 'accepted',
    (error: { code?: string }) => error.code ?? String(error),
  )
}

export async function connect(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  return client
}

/** Inserts a row given by column; a test's way to write one that differs from another in a column or two. */
export async function insertRow(client: pg.Client, table: string, row: Record<string, unknown>): Promise<void> {
  const columns = Object.keys(row)
  const names = columns.map((column) => `"${column}"`).join(', ')
  const places = columns.map((_, index) => `$${index + 1}`).join(', ')
  await client.query(`insert into "${table}" (${names}) values (${places})`, Object.values(row))
}
