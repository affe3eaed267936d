import { spawn, type ChildProcess } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { freePort } from '../../packages/database/src/free-port.ts'
import { projectRoot } from '../../packages/database/src/migration-files.ts'

/** The product as a person starts it: the starter of some folder, with data of its own. */
export type Product = {
  url: string
  starter: ChildProcess
  /** Everything printed so far. */
  output(): string
  serverPid(): Promise<number>
  clusterPid(): Promise<number>
  /** Ctrl-C, and the starter's exit code. */
  stop(): Promise<number | null>
  /** Resolves with the exit code when the starter has ended by itself. */
  ended: Promise<number | null>
}

export type ProductOptions = {
  /** A copy of the project; left out, the project itself. */
  folder?: string
  dataFolder: string
  args?: string[]
  env?: Record<string, string>
  uid?: number
  gid?: number
}

const begun: Product[] = []

/** Ends what the products of a test file left running, also after a test that failed halfway. */
export async function endProducts(): Promise<void> {
  for (const product of begun.splice(0)) {
    const pids = [await product.serverPid().catch(() => 0), await product.clusterPid().catch(() => 0)]
    if (product.starter.exitCode === null && product.starter.signalCode === null) await product.stop()
    for (const pid of pids) {
      if (pid === 0 || !(await isAlive(pid))) continue
      process.kill(pid, 'SIGINT')
      await untilGone(pid)
    }
  }
}

/** Begins `npm start` without npm and without waiting. */
export async function beginProduct({
  folder = projectRoot,
  dataFolder,
  args = ['--empty'],
  env = {},
  uid,
  gid,
}: ProductOptions): Promise<Product> {
  const port = env.PORT ?? String(await freePort())
  const environment = {
    PATH: process.env.PATH,
    HOME: dataFolder,
    CUREBOOK_DATA: dataFolder,
    WEB: 'off',
    PORT: port,
    ...env,
  } as unknown as NodeJS.ProcessEnv
  const starter = spawn(process.execPath, ['packages/start/src/start.js', ...args], {
    cwd: folder,
    env: environment,
    uid,
    gid,
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let printed = ''
  for (const stream of [starter.stdout, starter.stderr])
    stream.setEncoding('utf8').on('data', (text: string) => (printed += text))
  // The server keeps the pipes open when its starter is killed: what counts is the starter's own end.
  const ended = new Promise<number | null>((resolve) => {
    starter.on('exit', (code) => setTimeout(() => resolve(code), 50))
  })
  const noted = async (file: string) => readFile(file, 'utf8')
  const product: Product = {
    url: `http://127.0.0.1:${port}`,
    starter,
    output: () => printed,
    serverPid: async () => (JSON.parse(await noted(`${dataFolder}/running.json`)) as { server: number }).server,
    async clusterPid() {
      const elsewhere = await noted(`${dataFolder}/pg18.folder`).catch(() => `${dataFolder}/pg18`)
      return Number((await noted(`${elsewhere.trim()}/postmaster.pid`)).split('\n')[0])
    },
    stop() {
      starter.kill('SIGINT')
      return ended
    },
    ended,
  }
  begun.push(product)
  return product
}

/** Starts the product and waits until it can serve. Throws with what was printed when it ends before. */
export async function startProduct(options: ProductOptions): Promise<Product> {
  const product = await beginProduct(options)
  let over = false
  void product.ended.then(() => (over = true))
  // An earlier start's server may still answer there: this one has to say so itself.
  while (!product.output().includes('Curebook listens on') || !(await isReady(product.url))) {
    if (over) throw new Error(`The product ended before it was ready:\n${product.output()}`)
    await pause(100)
  }
  return product
}

const isReady = (url: string) =>
  fetch(`${url}/health/ready`).then(
    ({ ok }) => ok,
    () => false,
  )

export const pause = (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds))

/** Whether a process lives; one that ended and waits to be collected does not. */
export async function isAlive(pid: number): Promise<boolean> {
  const status = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '')
  return status !== '' && !/\) Z /.test(status)
}

/** Waits until a process is gone. */
export async function untilGone(pid: number): Promise<void> {
  while (await isAlive(pid)) await pause(50)
}

const manager = { email: 'manager@ternhollow.example', password: 'nine rooks above the wet weir' }

/** Makes the first laboratory over the API, with the code that the server printed. */
export async function makeFirstLaboratory(product: Product): Promise<void> {
  let code: string | undefined
  while ((code = /one-time code: (\S+)/.exec(product.output())?.[1]) === undefined) await pause(50)
  const laboratory = {
    id: '01900000-0000-7000-8000-000000000001',
    shortName: 'tern-hollow',
    name: 'Tern Hollow Surfacing Laboratory',
    zone: 'Europe/London',
  }
  const response = await post(product, '/api/first-run', {
    code,
    laboratory,
    manager: { name: 'Ada Quill', initials: 'AQ', ...manager },
  })
  if (response.status !== 201) throw new Error(`The first run was refused: ${await response.text()}`)
}

/** Signs its manager in and says of which laboratories they are a member. */
export async function laboratoriesOf(product: Product): Promise<string[]> {
  const response = await post(product, '/api/session', manager)
  const { memberships } = (await response.json()) as { memberships?: { shortName: string }[] }
  return memberships?.map(({ shortName }) => shortName) ?? []
}

const post = (product: Product, path: string, body: object) =>
  fetch(`${product.url}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
