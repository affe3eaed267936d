import { execFileSync } from 'node:child_process'
import { readFile, readdir, rm } from 'node:fs/promises'
import path from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { endProducts, laboratoriesOf, makeFirstLaboratory, startProduct } from '../support/product.ts'
import { copyProject } from '../support/project-copy.ts'

const isRoot = process.getuid?.() === 0
const underRoot = `/root/curebook-test-${process.pid}`
const ordinary = `/tmp/curebook-test-${process.pid}`
const user = `curebook-test-${process.pid % 1000}`

afterAll(async () => {
  await endProducts()
  const system = await readdir('/var/lib/curebook').catch((): string[] => [])
  const outside = system
    .filter((name) => name.startsWith(`${path.basename(underRoot)}-`))
    .map((name) => `/var/lib/curebook/${name}`)
  for (const folder of [underRoot, ordinary, ...outside]) await rm(folder, { recursive: true, force: true })
})

test.runIf(isRoot)(
  'root starts from a clone under /root, which the database’s user cannot enter, and finds the data again',
  async () => {
    const dataFolder = path.join(underRoot, '.curebook')
    await copyProject(underRoot)
    const first = await startProduct({ folder: underRoot, dataFolder })
    await makeFirstLaboratory(first)
    expect(await first.stop()).toBe(0)

    const cluster = (await readFile(path.join(dataFolder, 'pg18.folder'), 'utf8')).trim()
    expect(cluster).toMatch(/^\/var\/lib\/curebook\//)
    const second = await startProduct({ folder: underRoot, dataFolder })
    expect(await laboratoriesOf(second)).toEqual(['tern-hollow'])
    expect(await second.stop()).toBe(0)
  },
)

test.runIf(isRoot)('an ordinary user starts from a clone of their own and finds the data again', async () => {
  const dataFolder = path.join(ordinary, '.curebook')
  await copyProject(ordinary)
  execFileSync('useradd', ['--no-create-home', '--shell', '/bin/sh', user])
  try {
    const [uid, gid] = ['-u', '-g'].map((flag) => Number(execFileSync('id', [flag, user], { encoding: 'utf8' })))
    // The packages stay as they were installed: linked files belong to both copies.
    execFileSync('/bin/sh', [
      '-c',
      'chown "$1" "$0" && find "$0" -path "$0/node_modules" -prune -o -exec chown -h "$1" {} +',
      ordinary,
      `${uid}:${gid}`,
    ])
    const first = await startProduct({ folder: ordinary, dataFolder, uid, gid })
    await makeFirstLaboratory(first)
    expect(await first.stop()).toBe(0)
    const second = await startProduct({ folder: ordinary, dataFolder, uid, gid })
    expect(await laboratoriesOf(second)).toEqual(['tern-hollow'])
    expect(await second.stop()).toBe(0)
  } finally {
    execFileSync('userdel', [user])
  }
})
