import { execFileSync } from 'node:child_process'
import { chmod, mkdir, mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { createServer, type Server } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import pg from 'pg'
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest'
import { startEmbeddedServer, type EmbeddedServer } from './embedded-server.ts'
import { readPostmaster } from './postmaster.ts'

// Whole clusters and databases are made here; a busy machine takes its time.
vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 })

const password = 'only for these tests'
const settings = { fsync: 'off' }
let folder: string
let servers: EmbeddedServer[] = []

beforeEach(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'curebook-server-'))
  await chmod(folder, 0o755)
})

afterEach(async () => {
  for (const server of servers) {
    await server.stop()
    await rm(server.cluster.startsWith(folder) ? server.cluster : path.dirname(server.cluster), {
      recursive: true,
      force: true,
    })
  }
  servers = []
  await rm(folder, { recursive: true, force: true })
})

async function start(options: { port?: number; dataFolder?: string } = {}) {
  const server = await startEmbeddedServer({ dataFolder: folder, password, settings, ...options })
  servers.push(server)
  return server
}

async function ask(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return (await client.query(sql)).rows as Record<string, unknown>[]
  } finally {
    await client.end()
  }
}

test('the cluster speaks UTF-8, listens on this machine alone and keeps no trust', async () => {
  const { ownerUrl } = await start()
  const [row] = await ask(
    ownerUrl,
    `select current_setting('server_encoding') as encoding, current_setting('listen_addresses') as listens, datcollate as collation from pg_database where datname = current_database()`,
  )
  expect(row).toEqual({ encoding: 'UTF8', listens: '127.0.0.1', collation: 'C' })
  await expect(ask(ownerUrl.replace(/:[^:@]+@/, ':wrong@'), 'select 1')).rejects.toMatchObject({ code: '28P01' })
})

test('a server that outlived its starter is used again, with what was written', async () => {
  const first = await start()
  await ask(first.ownerUrl, 'create table kept as select 1 as number')
  const second = await start()
  expect(second).toMatchObject({ reused: true, port: first.port })
  expect(await ask(second.ownerUrl, 'select number from kept')).toEqual([{ number: 1 }])
})

test('after kill -9 of the server a stale pid file does not stand in the way, and committed rows are there', async () => {
  const first = await start()
  await ask(first.ownerUrl, 'create table kept as select 1 as number')
  const { pid } = (await readPostmaster(first.cluster))!
  process.kill(pid, 'SIGKILL')
  await gone(pid)
  const second = await start()
  expect(second.reused).toBe(false)
  expect(await ask(second.ownerUrl, 'select number from kept')).toEqual([{ number: 1 }])
})

test('a pid file whose number went to another program is taken away', async () => {
  const first = await start()
  await first.stop()
  await writeFile(
    path.join(first.cluster, 'postmaster.pid'),
    `${process.pid}\n${first.cluster}\n1\n${first.port}\n\n127.0.0.1\n\nready\n`,
  )
  expect((await start()).reused).toBe(false)
})

test('data of another major version is named and not touched', async () => {
  await mkdir(path.join(folder, 'pg17'))
  await writeFile(path.join(folder, 'pg17', 'PG_VERSION'), '17\n')
  await expect(start()).rejects.toThrow(/PostgreSQL 17.*PostgreSQL 18.*backup/)
  expect(await stat(path.join(folder, 'pg18')).catch(() => undefined)).toBeUndefined()
  await mkdir(path.join(folder, 'pg18'))
  await writeFile(path.join(folder, 'pg18', 'PG_VERSION'), '16\n')
  await expect(start()).rejects.toThrow(/PostgreSQL 16/)
  expect(await readFile(path.join(folder, 'pg18', 'PG_VERSION'), 'utf8')).toBe('16\n')
})

test('a taken port gives way to a free one', async () => {
  const taken: Server = await new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => resolve(server))
  })
  const { port } = taken.address() as { port: number }
  const server = await start({ port })
  taken.close()
  expect(server.port).not.toBe(port)
  expect(await ask(server.ownerUrl, 'select 1 as one')).toEqual([{ one: 1 }])
})

test('a cluster whose making was cut off is made anew', async () => {
  await mkdir(path.join(folder, 'pg18', 'base'), { recursive: true })
  const { ownerUrl } = await start()
  expect(await ask(ownerUrl, 'select 1 as one')).toEqual([{ one: 1 }])
})

test('secrets that do not belong to the data are named', async () => {
  await start()
  await expect(startEmbeddedServer({ dataFolder: folder, password: 'another one', settings })).rejects.toThrow(
    /secrets\.json/,
  )
})

test.runIf(process.getuid?.() === 0)(
  'root in a folder that no other user can enter keeps the cluster under /var/lib/curebook',
  async () => {
    await chmod(folder, 0o700)
    const first = await start()
    expect(first.cluster).toMatch(/^\/var\/lib\/curebook\//)
    await ask(first.ownerUrl, 'create table kept as select 1 as number')
    await first.stop()
    const second = await start()
    expect(await ask(second.ownerUrl, 'select number from kept')).toEqual([{ number: 1 }])
  },
)

async function gone(pid: number): Promise<void> {
  for (;;) {
    try {
      const state = execFileSync('ps', ['-p', String(pid), '-o', 'stat='], { encoding: 'utf8' })
      if (state.startsWith('Z')) return
    } catch {
      return
    }
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
}

afterAll(async () => {
  await rm(folder, { recursive: true, force: true })
})
