import { PrismaPg } from '@prisma/adapter-pg'
import pg from 'pg'
import { PrismaClient } from './generated/client.ts'
import { withoutPassword } from './logins.ts'
import { StartError } from './start-error.ts'

export type Database = {
  /** Pipelined, UTC, as the application's login: Prisma and SQL alike. */
  pool: pg.Pool
  prisma: PrismaClient
  /** Not pipelined (cursors), two connections: long reads leave the bench its own. */
  exportPool: pg.Pool
  /** Accounts and sessions only. */
  identityPool: pg.Pool
  identityPrisma: PrismaClient
  /** For the sealer's own connection and for LISTEN. */
  sealerUrl: string
  close(): Promise<void>
}

export type OpenDatabaseOptions = {
  appUrl: string
  identityUrl: string
  sealerUrl: string
  /** Connections of the main pool. */
  poolSize?: number
  /** Told of a resting connection that broke; the pool replaces it. */
  onError?: (error: Error) => void
}

/**
 * Opens the server's connections and tries each login once. Throws StartError with the address, without its password, when
 * one cannot be reached.
 */
export async function openDatabase({
  appUrl,
  identityUrl,
  sealerUrl,
  poolSize = 20,
  onError,
}: OpenDatabaseOptions): Promise<Database> {
  const pool = openPool(appUrl, {
    max: poolSize,
    pipeline: true,
    application_name: 'curebook',
    options: sessionOptions('30s'),
  })
  const exportPool = openPool(appUrl, { max: 2, application_name: 'curebook export', options: sessionOptions('10min') })
  const identityPool = openPool(identityUrl, {
    max: 8,
    pipeline: true,
    application_name: 'curebook identity',
    options: sessionOptions('30s'),
  })
  const pools = [pool, exportPool, identityPool]
  for (const each of pools) each.on('error', (error) => (onError ?? logError)(error))
  const prisma = new PrismaClient({ adapter: new PrismaPg(pool) })
  const identityPrisma = new PrismaClient({ adapter: new PrismaPg(identityPool) })

  async function close(): Promise<void> {
    await Promise.all([prisma.$disconnect(), identityPrisma.$disconnect()])
    await Promise.all(pools.map((each) => each.end()))
  }

  try {
    await reach(pool, appUrl)
    await reach(identityPool, identityUrl)
  } catch (error) {
    await close()
    throw error
  }
  return { pool, prisma, exportPool, identityPool, identityPrisma, sealerUrl, close }
}

/**
 * Times in UTC whatever the database says; a lost transaction lets go of its locks. Tables are joined in the order in which
 * a query names them, five at a time: every row names its laboratory, so that each table could be joined to each other one
 * and looking for a better order took 40 ms to 90 ms for a design's specimens, which are then read in 1 ms.
 */
const sessionOptions = (statementTimeout: string) =>
  [
    '-c TimeZone=UTC',
    '-c join_collapse_limit=5',
    '-c from_collapse_limit=5',
    `-c statement_timeout=${statementTimeout}`,
    '-c idle_in_transaction_session_timeout=60s',
  ].join(' ')

function openPool(connectionString: string, config: pg.PoolConfig): pg.Pool {
  return new pg.Pool({
    connectionString,
    connectionTimeoutMillis: 10_000,
    idleTimeoutMillis: 60_000,
    keepAlive: true,
    ...config,
  })
}

async function reach(pool: pg.Pool, url: string): Promise<void> {
  await pool.query('select 1').catch((error: Error) => {
    throw new StartError(
      `The database ${withoutPassword(url)} cannot be reached: ${error.message || String((error as { code?: string }).code)}`,
    )
  })
}

const logError = (error: Error) => process.stderr.write(`A resting database connection broke: ${error.message}\n`)
