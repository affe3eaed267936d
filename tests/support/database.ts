import { randomBytes } from 'node:crypto'
import pg from 'pg'
import { inject } from 'vitest'
import { underLogin } from '../../packages/database/src/logins.ts'

export type ClonedDatabase = { ownerUrl: string; appUrl: string; identityUrl: string; sealerUrl: string; drop(): Promise<void> }

/** A database of one's own, cloned from the migrated template. One a test file. */
export async function cloneDatabase(): Promise<ClonedDatabase> {
  const { ownerUrl: clusterUrl, template, passwords } = inject('cluster')
  const name = `clone_${randomBytes(6).toString('hex')}`
  await onCluster(clusterUrl, `create database ${name} template ${template}`)
  const url = new URL(clusterUrl)
  url.pathname = `/${name}`
  const ownerUrl = url.toString()
  return {
    ownerUrl,
    appUrl: underLogin(ownerUrl, 'app', passwords),
    identityUrl: underLogin(ownerUrl, 'identity', passwords),
    sealerUrl: underLogin(ownerUrl, 'sealer', passwords),
    drop: () => onCluster(clusterUrl, `drop database if exists ${name} with (force)`),
  }
}

async function onCluster(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    // Cloning reads the template alone: two files must not clone at the same moment.
    await client.query('select pg_advisory_lock(727003)')
    await client.query(statement)
  } finally {
    await client.end()
  }
}
