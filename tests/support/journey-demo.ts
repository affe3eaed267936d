import pg from 'pg'
import { inject } from 'vitest'
import { makeDemo } from '../../apps/api/src/demo/make-demo.ts'
import { cloneDatabase, cloneOf, type ClonedDatabase } from './database.ts'
import { withServices } from './journey-laboratory.ts'

export type Demo = Awaited<ReturnType<typeof makeDemo>>

/** When the demonstration laboratory of the journeys was made, and everybody's password there. */
export const demoNow = '2026-11-25T09:00:00Z'
export const demoPassword = 'weigh it, then write it'

const name = 'demo_laboratory'
/** Any number that no other lock of a test cluster has. */
const lock = 20261125

/**
 * A database of one's own with the demonstration laboratory in it, and what `makeDemo` tells of it. The laboratory is made
 * once a run, by whoever asks first; others wait, and all get a clone.
 */
export async function cloneDemo(): Promise<{ clone: () => Promise<ClonedDatabase>; demo: Demo }> {
  const cluster = inject('cluster')
  const owner = new pg.Client({ connectionString: cluster.ownerUrl })
  await owner.connect()
  try {
    await owner.query('select pg_advisory_lock($1)', [lock])
    const demo = (await toldBefore(owner)) ?? (await tellOnce(owner))
    return { demo, clone: () => cloneOf({ ...cluster, template: name }) }
  } finally {
    // The lock goes with the connection.
    await owner.end()
  }
}

/** What was told of the laboratory stands with its database, which has this name only once it is whole. */
async function toldBefore(owner: pg.Client): Promise<Demo | undefined> {
  const { rows } = await owner.query<{ told: string }>(
    `select shobj_description(oid, 'pg_database') as told from pg_database where datname = $1`,
    [name],
  )
  return rows[0] && (JSON.parse(rows[0].told) as Demo)
}

async function tellOnce(owner: pg.Client): Promise<Demo> {
  const database = await cloneDatabase()
  const demo = await withServices({ database }, demoNow, ({ services, clock }) =>
    makeDemo({ services, clock, now: new Date(demoNow), password: demoPassword }),
  )
  const made = new URL(database.ownerUrl).pathname.slice(1)
  await owner.query(`comment on database ${made} is ${pg.escapeLiteral(JSON.stringify(demo))}`)
  await owner.query(`alter database ${made} rename to ${name}`)
  return demo
}
