import { randomBytes } from 'node:crypto'
import { mkdir, readFile, readdir, rm, writeFile } from 'node:fs/promises'
import path from 'node:path'
import pg from 'pg'
import { startEmbeddedServer } from '../../packages/database/src/embedded-server.ts'
import { ensureLogins, withDatabase, type LoginPasswords } from '../../packages/database/src/logins.ts'
import { migrate } from '../../packages/database/src/migrate.ts'
import { digestOfMigrations, projectRoot, readMigrations } from '../../packages/database/src/migration-files.ts'
import { commandLineOf } from '../../packages/database/src/postmaster.ts'

/** What a test needs to clone a database; it travels to the test's process as JSON. */
export type TestCluster = { ownerUrl: string; template: string; passwords: LoginPasswords }

const testFolder = path.join(path.resolve(projectRoot, process.env.CUREBOOK_DATA ?? '.curebook'), 'test')

/**
 * A PostgreSQL cluster for this process alone, with one migrated database that test files clone, so that several runs at once
 * never meet. `stop` removes it; what a killed run left behind is cleared by the next.
 */
export async function startTestCluster(): Promise<{ cluster: TestCluster; stop: () => Promise<void> }> {
  await clearLeftovers()
  const folder = path.join(testFolder, `run-${process.pid}-${randomBytes(3).toString('hex')}`)
  await mkdir(folder, { recursive: true })
  const password = randomBytes(16).toString('hex')
  await writeFile(path.join(folder, 'password'), password, { mode: 0o600 })
  const server = await startEmbeddedServer({ dataFolder: folder, password, settings })
  const stop = async () => {
    await server.stop()
    if (!server.cluster.startsWith(folder)) await rm(path.dirname(server.cluster), { recursive: true, force: true })
    await rm(folder, { recursive: true, force: true })
  }
  try {
    const random = () => randomBytes(16).toString('hex')
    const passwords = { app: random(), identity: random(), sealer: random() }
    const template = await makeTemplate(server.ownerUrl, passwords)
    return { cluster: { ownerUrl: server.ownerUrl, template, passwords }, stop }
  } catch (error) {
    await stop()
    throw error
  }
}

// Nothing here outlives the run, so nothing waits for the disk. The zone is far from UTC: a time that leans on it comes out wrong.
const settings = {
  fsync: 'off',
  synchronous_commit: 'off',
  full_page_writes: 'off',
  max_connections: '250',
  // Clones fill within seconds; uncounted, their queries would take ways that no laboratory's take for long.
  autovacuum_naptime: '2s',
  timezone: 'Asia/Kathmandu',
}

async function makeTemplate(ownerUrl: string, passwords: LoginPasswords): Promise<string> {
  const migrations = await readMigrations()
  const template = `template_${digestOfMigrations(migrations).slice(0, 12)}`
  await ensureLogins(ownerUrl, passwords)
  const client = new pg.Client({ connectionString: ownerUrl })
  await client.connect()
  try {
    await client.query(`create database ${template}`)
  } finally {
    await client.end()
  }
  await migrate(withDatabase(ownerUrl, template), { migrations })
  return template
}

/** Stops and removes clusters whose test run is gone: killed, or the machine went down. */
async function clearLeftovers(): Promise<void> {
  const names = await readdir(testFolder).catch((): string[] => [])
  for (const name of names) {
    const pid = Number(/^run-(\d+)-/.exec(name)?.[1])
    if (!Number.isInteger(pid) || /node|vitest/.test((await commandLineOf(pid)) ?? '')) continue
    const folder = path.join(testFolder, name)
    const password = await readFile(path.join(folder, 'password'), 'utf8').catch(() => '')
    const elsewhere = (await readFile(path.join(folder, 'pg18.folder'), 'utf8').catch(() => '')).trim()
    if (password !== '') {
      // Starting finds a server that is still alive; stopping it is then the same as stopping one's own.
      const server = await startEmbeddedServer({ dataFolder: folder, password, settings }).catch(() => undefined)
      await server?.stop()
    }
    if (elsewhere !== '') await rm(path.dirname(elsewhere), { recursive: true, force: true })
    await rm(folder, { recursive: true, force: true })
  }
}
