import pg from 'pg'
import { dropTables } from './drop-tables.ts'

/** Stands on the database (COMMENT ON DATABASE) while the demo is being loaded into it, and only then. */
const mark = 'Curebook: the demo is being loaded'

/** Says on the database that the demo's loading begins, or that it ended. Until it ended, the server has not started. */
export async function markDemo(ownerUrl: string, state: 'begun' | 'ended'): Promise<void> {
  await asOwner(ownerUrl, async (client) => {
    const name = await databaseName(client)
    await client.query(`comment on database ${name} is ${state === 'begun' ? client.escapeLiteral(mark) : 'null'}`)
  })
}

/** Empties a database in which the loading of the demo was cut off, and says whether it did. No work of people is in it. */
export async function discardUnfinishedDemo(ownerUrl: string): Promise<boolean> {
  return asOwner(ownerUrl, async (client) => {
    const { rows } = await client.query<{ found: string | null }>(
      `select shobj_description(oid, 'pg_database') as found from pg_database where datname = current_database()`,
    )
    if (rows[0]!.found !== mark) return false
    // A loader whose starter was killed may still be writing.
    await client.query(
      'select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()',
    )
    await dropTables(client)
    await client.query(`comment on database ${await databaseName(client)} is null`)
    return true
  })
}

/** How many laboratories stand in a migrated database. */
export async function countLaboratories(ownerUrl: string): Promise<number> {
  return asOwner(ownerUrl, async (client) => {
    const { rows } = await client.query<{ count: string }>('select count(*) from laboratory')
    return Number(rows[0]!.count)
  })
}

/** Whether the demo laboratory's people can sign in to this database. */
export async function holdsDemo(ownerUrl: string): Promise<boolean> {
  return asOwner(ownerUrl, async (client) => {
    const { rowCount } = await client.query(`select from identity_user where email = 'manager@ternhollow.example'`)
    return rowCount === 1
  })
}

async function databaseName(client: pg.Client): Promise<string> {
  const { rows } = await client.query<{ name: string }>('select quote_ident(current_database()) as name')
  return rows[0]!.name
}

async function asOwner<T>(ownerUrl: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: ownerUrl })
  await client.connect()
  try {
    return await work(client)
  } finally {
    await client.end()
  }
}
