import { chmod, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import {
  endProducts,
  isAlive,
  laboratoriesOf,
  makeFirstLaboratory,
  startProduct,
  untilGone,
} from '../support/product.ts'

let dataFolder: string

beforeAll(async () => {
  dataFolder = await mkdtemp(path.join(tmpdir(), 'curebook-kill-'))
  await chmod(dataFolder, 0o755)
})

afterAll(async () => {
  await endProducts()
  await rm(dataFolder, { recursive: true, force: true })
})

test('data outlives kill -9 of the starter, of the server and of the database, and an orderly end leaves nothing running', async () => {
  const first = await startProduct({ dataFolder })
  await makeFirstLaboratory(first)
  const orphan = await first.serverPid()
  first.starter.kill('SIGKILL')
  await first.ended
  expect(await isAlive(orphan)).toBe(true)

  // The orphaned server gives way to a new one; its database is used again.
  const port = new URL(first.url).port
  const second = await startProduct({ dataFolder, env: { PORT: port } })
  expect(await isAlive(orphan)).toBe(false)
  expect(second.output()).toMatch(/it was still running/)
  expect(await laboratoriesOf(second)).toEqual(['tern-hollow'])

  const database = await second.clusterPid()
  process.kill(await second.serverPid(), 'SIGKILL')
  expect(await second.ended).toBe(1)
  expect(second.output()).toMatch(/The server was ended from outside \(SIGKILL\)/)
  expect(await isAlive(database)).toBe(false)

  const third = await startProduct({ dataFolder })
  expect(await laboratoriesOf(third)).toEqual(['tern-hollow'])
  const killed = await third.clusterPid()
  third.starter.kill('SIGKILL')
  process.kill(await third.serverPid(), 'SIGKILL')
  process.kill(killed, 'SIGKILL')
  await untilGone(killed)

  const fourth = await startProduct({ dataFolder })
  expect(await laboratoriesOf(fourth)).toEqual(['tern-hollow'])
  const [server, cluster] = [await fourth.serverPid(), await fourth.clusterPid()]
  expect(await fourth.stop()).toBe(0)
  expect([await isAlive(server), await isAlive(cluster)]).toEqual([false, false])
})
