import { createHash } from 'node:crypto'
import { setTimeout } from 'node:timers/promises'
import pg from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { cloneDatabase, type ClonedDatabase } from '../../../tests/support/database.ts'
import { copyOut } from './copy-stream.ts'

let database: ClonedDatabase
let client: pg.Client

beforeAll(async () => {
  database = await cloneDatabase()
  client = new pg.Client({ connectionString: database.ownerUrl })
  await client.connect()
})

afterAll(async () => {
  await client.end()
  await database.drop()
})

// Rows of many lengths, so that pieces end at every place of the buffers that they come in.
const rows = `select n, repeat(md5(n::text), 1 + n % 97) from generate_series(1, 4000) as n order by n`

test('pieces that wait their turn keep their bytes while more come in', async () => {
  const { rows: wanted } = await client.query<{ sum: string }>(
    `select encode(sha256(string_agg(n || E'\\t' || text || E'\\n', '' order by n)::bytea), 'hex') as sum
     from (${rows}) as each(n, text)`,
  )
  const kept: Buffer[] = []
  await copyOut(client, `copy (${rows}) to stdout`, async (chunk) => {
    if (kept.length % 50 === 0) await setTimeout(1)
    kept.push(chunk)
  })
  expect(kept).toHaveLength(4000)
  expect(createHash('sha256').update(Buffer.concat(kept)).digest('hex')).toBe(wanted[0]!.sum)
})

test('a piece that cannot be taken is told, and the connection goes on', async () => {
  await expect(
    copyOut(client, `copy (select 1 from generate_series(1, 500)) to stdout`, () =>
      Promise.reject(new Error('disc full')),
    ),
  ).rejects.toThrow('disc full')
  expect((await client.query('select 1 as one')).rows).toEqual([{ one: 1 }])
})
