import type { Database } from '@curebook/database/open-database'
import type { PoolClient } from 'pg'
import type { AnyActor } from './actor.ts'
import { settingsOf, settingsSql } from './session-settings.ts'

/** A long read of one laboratory that sees one moment, on the pool for exports, so that the bench keeps its connections. */
export async function inExport<T>(
  { exportPool }: Database,
  actor: AnyActor,
  read: (client: PoolClient) => Promise<T>,
): Promise<T> {
  const client = await exportPool.connect()
  let broken: Error | undefined
  const noteBreak = (error: Error) => void (broken = error)
  client.on('error', noteBreak)
  try {
    await client.query('begin isolation level repeatable read, read only')
    await client.query(settingsSql, settingsOf(actor))
    const outcome = await read(client)
    await client.query('commit')
    return outcome
  } catch (error) {
    await client.query('rollback').catch(noteBreak)
    throw error
  } finally {
    client.off('error', noteBreak)
    client.release(broken)
  }
}
