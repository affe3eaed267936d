import { randomBytes } from 'node:crypto'
import pg from 'pg'
import { inject } from 'vitest'
import { loginUrls, withDatabase } from '../../packages/database/src/logins.ts'
import type { TestCluster } from './test-cluster.ts'

export type ClonedDatabase = {
  ownerUrl: string
  appUrl: string
  identityUrl: string
  sealerUrl: string
  drop(): Promise<void>
}

/** A database of one's own, cloned from the migrated template. One a test file. */
export const cloneDatabase = (): Promise<ClonedDatabase> => cloneOf(inject('cluster'))

/** The same outside a test file, where the cluster is at hand. */
export async function cloneOf({ ownerUrl: clusterUrl, template, passwords }: TestCluster): Promise<ClonedDatabase> {
  const name = `clone_${randomBytes(6).toString('hex')}`
  await onCluster(clusterUrl, `create database ${name} template ${template} strategy file_copy`)
  const ownerUrl = withDatabase(clusterUrl, name)
  const { app, identity, sealer } = loginUrls(ownerUrl, passwords)
  return {
    ownerUrl,
    appUrl: app,
    identityUrl: identity,
    sealerUrl: sealer,
    drop: () => onCluster(clusterUrl, `drop database if exists ${name} with (force)`),
  }
}

async function onCluster(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    await client.query(statement)
  } finally {
    await client.end()
  }
}
