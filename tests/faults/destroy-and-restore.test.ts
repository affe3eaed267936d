import { execFile } from 'node:child_process'
import { chmod, mkdtemp, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { promisify } from 'node:util'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { projectRoot } from '../../packages/database/src/migration-files.ts'
import { endProducts, laboratoriesOf, makeFirstLaboratory, startProduct } from '../support/product.ts'

const run = promisify(execFile)
let dataFolder: string

beforeAll(async () => {
  dataFolder = await mkdtemp(path.join(tmpdir(), 'curebook-restore-'))
  await chmod(dataFolder, 0o755)
})

afterAll(async () => {
  await endProducts()
  await rm(dataFolder, { recursive: true, force: true })
})

const command = (name: string, file: string) =>
  run(process.execPath, ['--import', 'tsx', `packages/database/src/cli/${name}.ts`, file], {
    cwd: projectRoot,
    env: { ...process.env, CUREBOOK_DATA: dataFolder },
  })

test('after the database was destroyed, a backup made while people worked brings everything back', async () => {
  const file = path.join(dataFolder, 'yesterday.backup')
  const first = await startProduct({ dataFolder })
  await makeFirstLaboratory(first)
  const { stdout: made } = await command('backup', file)
  expect((await stat(file)).mode & 0o777).toBe(0o600)
  expect(await first.stop()).toBe(0)

  await rm(path.join(dataFolder, 'pg18'), { recursive: true })
  const { stdout: restored } = await command('restore', file)
  const digest = /digest (\w{64})/
  expect(digest.exec(restored)?.[1]).toBe(digest.exec(made)?.[1])

  const second = await startProduct({ dataFolder })
  expect(await laboratoriesOf(second)).toEqual(['tern-hollow'])
  await expect(command('restore', file)).rejects.toMatchObject({
    code: 1,
    stderr: expect.stringContaining('The database is not empty'),
  })
  expect(await second.stop()).toBe(0)
})
