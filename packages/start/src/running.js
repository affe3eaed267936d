import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { StartFailure } from './failure.js'
import { isAlive } from './processes.js'
import { inDataFolder } from './project.js'

/** @typedef {{ starter: number, server?: number }} Running */

const file = () => join(inDataFolder(), 'running.json')

/**
 * Takes this data folder for this starter. Throws StartFailure when another starter works on it; a server whose starter was
 * killed is ended first, since its port and its version may not be wanted any more.
 */
export async function takeDataFolder() {
  const earlier = read()
  if (earlier && earlier.starter !== process.pid && isAlive(earlier.starter, 'start.js')) {
    throw new StartFailure(
      `Curebook runs from this data folder already (process ${earlier.starter}). End it first, or name another folder in CUREBOOK_DATA.`,
    )
  }
  const server = earlier?.server
  if (server && isAlive(server, 'server.ts')) {
    process.kill(server, 'SIGTERM')
    for (let waited = 0; waited < 15_000 && isAlive(server, 'server.ts'); waited += 50) await pause(50)
    if (isAlive(server, 'server.ts')) process.kill(server, 'SIGKILL')
  }
  note({ starter: process.pid })
}

/** @param {Running} running */
export function note(running) {
  writeFileSync(file(), `${JSON.stringify(running)}\n`)
}

export function leaveDataFolder() {
  if (read()?.starter === process.pid) rmSync(file(), { force: true })
}

/** @returns {Running | undefined} */
function read() {
  try {
    return existsSync(file()) ? JSON.parse(readFileSync(file(), 'utf8')) : undefined
  } catch {
    return undefined
  }
}
