import { spawn, type ChildProcess } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { createInterface } from 'node:readline'
import { projectRoot } from '../../packages/database/src/migration-files.ts'
import { testSecret } from './app.ts'
import { cloneDatabase, type ClonedDatabase } from './database.ts'

/** A line of the server's request log. */
export type ServedRequest = {
  readonly id: string
  readonly method: string
  readonly path: string
  readonly status: number
}
export type Product = Awaited<ReturnType<typeof startProduct>>
export type ProductOptions = {
  readonly settings?: Readonly<Record<string, string>>
  readonly clone?: () => Promise<ClonedDatabase>
}

/** What the server of a journey would print for the first run. */
export const setupCode = 'good-lime-wash-2'
const slowestStart = 120_000

/**
 * The product as it runs: its server as a process of its own, pages included, on a database of its own and with a clock
 * that moves only when told; `settings` are for its environment, `clone` makes the database. `served` lists what the server has answered.
 */
export async function startProduct({ settings = {}, clone = cloneDatabase }: ProductOptions = {}) {
  const database = await clone()
  const folder = mkdtempSync(path.join(tmpdir(), 'curebook-'))
  const socket = path.join(folder, 'clock')
  const served: ServedRequest[] = []
  const server = spawn(process.execPath, ['--import', 'tsx', 'apps/api/src/server.ts'], {
    cwd: projectRoot,
    env: { ...process.env, ...environmentOf(database), ...settings, CLOCK: 'controlled', CLOCK_SOCKET: socket },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const endWithTests = () => void server.kill('SIGKILL')
  process.once('exit', endWithTests)
  const stop = async () => {
    process.off('exit', endWithTests)
    await ended(server)
    rmSync(folder, { recursive: true, force: true })
    await database.drop()
  }
  try {
    const url = await listening(server, served)
    return { url, database, served, setClock: (instant: string) => tell(socket, { set: instant }), stop }
  } catch (error) {
    await stop()
    throw error
  }
}

function environmentOf({ appUrl, identityUrl, sealerUrl }: ClonedDatabase): Record<string, string> {
  return {
    NODE_ENV: 'test',
    HOST: '127.0.0.1',
    PORT: '0',
    PUBLIC_URL: '',
    LOG_LEVEL: 'info',
    DATABASE_URL_APP: appUrl,
    DATABASE_URL_IDENTITY: identityUrl,
    DATABASE_URL_SEALER: sealerUrl,
    AUTH_SECRET: testSecret,
    SETUP_CODE: setupCode,
    RATE_LIMIT: '0',
    METRICS_PORT: '',
    WEB: 'on',
    NEXT_TELEMETRY_DISABLED: '1',
  }
}

/** The address once the server listens; its request log goes into `served`. Throws with its last words when it ends before. */
function listening(server: ChildProcess, served: ServedRequest[]): Promise<string> {
  const words: string[] = []
  return new Promise((resolve, reject) => {
    const fail = (why: string) => reject(new Error(`The server of the journey ${why}.\n${words.slice(-20).join('\n')}`))
    const tooLong = setTimeout(() => fail('did not listen in time'), slowestStart)
    server.once('exit', (code) => fail(`ended with ${code}`))
    createInterface({ input: server.stderr! }).on('line', (line) => words.push(line))
    createInterface({ input: server.stdout! }).on('line', (line) => {
      words.push(line)
      const address = /listens on (http:\S+)/.exec(line)?.[1]
      if (address !== undefined) {
        clearTimeout(tooLong)
        resolve(address)
      } else if (line.startsWith('{')) note(line, served)
    })
  })
}

function note(line: string, served: ServedRequest[]): void {
  const { reqId, method, path: asked, status } = JSON.parse(line) as Record<string, unknown>
  if (typeof asked === 'string' && typeof status === 'number')
    served.push({ id: String(reqId), method: String(method), path: asked, status })
}

/** One order to the server's clock; resolves with what the clock then shows. */
function tell(socket: string, order: { set: string }): Promise<string> {
  return new Promise((resolve, reject) => {
    const line = connect(socket)
    line.once('error', reject)
    line.once('data', (answer) => {
      line.end()
      const { now, error } = JSON.parse(String(answer)) as { now?: string; error?: string }
      if (now === undefined) reject(new Error(error))
      else resolve(now)
    })
    line.write(`${JSON.stringify(order)}\n`)
  })
}

function ended(server: ChildProcess): Promise<void> {
  if (server.exitCode !== null || server.signalCode !== null) return Promise.resolve()
  return new Promise((resolve) => {
    server.once('exit', () => resolve())
    server.kill('SIGTERM')
  })
}
