import { spawn } from 'node:child_process'
import { setTimeout as pause } from 'node:timers/promises'
import { StartFailure } from './failure.js'
import { root } from './project.js'
import { follow, typescript, wasInterrupted } from './run-command.js'
import { note } from './running.js'

/**
 * Runs the server until it ends. It has a process group of its own, so that Ctrl-C reaches the starter alone, which ends the
 * server in order and only then the database.
 * @param {NodeJS.ProcessEnv} env @param {{ host: string, port: number }} address @param {() => Promise<void> | void} onReady
 */
export async function serve(env, address, onReady) {
  const server = spawn(process.execPath, typescript('apps/api/src/server.ts'), {
    cwd: root,
    env: { ...process.env, ...env },
    stdio: 'inherit',
    detached: true,
  })
  note({ starter: process.pid, server: server.pid })
  follow(server)
  const ended = new Promise((resolve) => {
    server.on('error', (error) => resolve({ code: null, signal: error.message }))
    server.on('exit', (code, signal) => resolve({ code, signal }))
  })
  let over = false
  void ended.then(() => (over = true))
  if (address.port !== 0) {
    while (!over && !(await isReady(address))) await pause(100)
    // The server names its address first.
    await pause(200)
    if (!over) await onReady()
  }
  const { code, signal } = await ended
  if (code === 0 || wasInterrupted()) return
  throw new StartFailure(
    signal
      ? `The server was ended from outside (${signal}). Start again; nothing that was saved is lost.`
      : 'The server ended; its last words are above.',
  )
}

/** @param {{ host: string, port: number }} address */
async function isReady({ host, port }) {
  const reachable = host === '0.0.0.0' ? '127.0.0.1' : host === '::' ? '[::1]' : host.includes(':') ? `[${host}]` : host
  return fetch(`http://${reachable}:${port}/health/ready`, { signal: AbortSignal.timeout(2000) }).then(
    (response) => response.ok,
    () => false,
  )
}
