import { spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { reportFailure, StartFailure } from './failure.js'
import { step } from './progress.js'
import { root } from './project.js'
import { takeShots } from './shots.js'

// `npm run screenshots`: starts the product with its demo laboratory in a folder of its own, and puts pictures of its main
// screens, as the README shows them, into docs/screenshots.
const folder = join(root, 'docs', 'screenshots')
const data = mkdtempSync(join(tmpdir(), 'curebook-screenshots-'))
const { password } = JSON.parse(readFileSync(new URL('./demo-sign-ins.json', import.meta.url), 'utf8'))
const port = await freePort()
const url = `http://127.0.0.1:${port}`
const product = spawn(process.execPath, [join(root, 'packages/start/src/start.js')], {
  cwd: root,
  env: { ...process.env, CUREBOOK_DATA: data, DATABASE_URL: '', PORT: String(port), HOST: '127.0.0.1', PUBLIC_URL: '' },
  stdio: ['ignore', 'ignore', 'inherit'],
})
const ended = new Promise((resolve) => product.once('exit', resolve))
let over = false
void ended.then(() => (over = true))
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP']))
  process.on(signal, () => product.kill('SIGTERM'))
try {
  await step('Starting the product with its demo laboratory', untilReady)
  mkdirSync(folder, { recursive: true })
  await step('Taking the pictures', () => takeShots({ url, password, folder }))
} catch (error) {
  reportFailure(error)
} finally {
  product.kill('SIGTERM')
  await ended
  rmSync(data, { recursive: true, force: true })
}

async function untilReady() {
  while (
    !(await fetch(`${url}/health/ready`).then(
      ({ ok }) => ok,
      () => false,
    ))
  ) {
    if (over) throw new StartFailure('The product did not start; its last words are above.')
    await pause(300)
  }
  return ''
}

/** @returns {Promise<number>} */
function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen({ host: '127.0.0.1', port: 0 }, () => {
      const address = /** @type {import('node:net').AddressInfo} */ (probe.address())
      probe.close(() => resolve(address.port))
    })
  })
}
