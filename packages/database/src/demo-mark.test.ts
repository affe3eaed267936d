import { afterAll, beforeAll, expect, test } from 'vitest'
import { connect } from '../../../tests/support/as-login.ts'
import { cloneDatabase, type ClonedDatabase } from '../../../tests/support/database.ts'
import { fillLaboratory } from '../../../tests/support/fill-laboratory.ts'
import { countLaboratories, discardUnfinishedDemo, markDemo } from './demo-mark.ts'
import { migrate } from './migrate.ts'

let database: ClonedDatabase

beforeAll(async () => {
  database = await cloneDatabase()
  const owner = await connect(database.ownerUrl)
  await fillLaboratory(owner)
  await owner.end()
})

afterAll(() => database.drop())

test('a database is emptied only while the mark of an unfinished demo stands on it', async () => {
  const { ownerUrl } = database
  expect(await discardUnfinishedDemo(ownerUrl)).toBe(false)
  await markDemo(ownerUrl, 'begun')
  await markDemo(ownerUrl, 'ended')
  expect(await discardUnfinishedDemo(ownerUrl)).toBe(false)
  expect(await countLaboratories(ownerUrl)).toBe(1)

  await markDemo(ownerUrl, 'begun')
  expect(await discardUnfinishedDemo(ownerUrl)).toBe(true)
  await migrate(ownerUrl)
  expect(await countLaboratories(ownerUrl)).toBe(0)
  expect(await discardUnfinishedDemo(ownerUrl)).toBe(false)
})
