import { afterAll, beforeAll, expect, test } from 'vitest'
import { connect } from '../../../tests/support/as-login.ts'
import { cloneDatabase, type ClonedDatabase } from '../../../tests/support/database.ts'
import { diffToSchema, readSchema } from './schema-engine.ts'

let database: ClonedDatabase

beforeAll(async () => {
  database = await cloneDatabase()
})

afterAll(async () => database.drop())

test('the migrations lead to the schema', async () => {
  expect(await diffToSchema(database.ownerUrl, await readSchema())).toBe('')
})

test('a column that only the database has shows as what to take away', async () => {
  const owner = await connect(database.ownerUrl)
  await owner.query('alter table place add column forgotten text')
  await owner.end()
  expect(await diffToSchema(database.ownerUrl, await readSchema())).toMatch(
    /ALTER TABLE "place" DROP COLUMN "forgotten"/,
  )
})
