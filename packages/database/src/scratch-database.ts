import { randomBytes } from 'node:crypto'
import pg from 'pg'
import { withDatabase } from './logins.ts'
import { migrate } from './migrate.ts'
import { openOwner } from './open-owner.ts'

/** Runs `work` on a freshly migrated database beside the installation's own, which is not touched; afterwards it is gone. */
export async function withScratchDatabase<T>(work: (ownerUrl: string) => Promise<T>): Promise<T> {
  const owner = await openOwner()
  const name = `curebook_scratch_${randomBytes(4).toString('hex')}`
  try {
    await run(owner.ownerUrl, `create database ${name}`)
    try {
      const ownerUrl = withDatabase(owner.ownerUrl, name)
      await migrate(ownerUrl)
      return await work(ownerUrl)
    } finally {
      await run(owner.ownerUrl, `drop database ${name} with (force)`)
    }
  } finally {
    await owner.close()
  }
}

async function run(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    await client.query(statement)
  } finally {
    await client.end()
  }
}
