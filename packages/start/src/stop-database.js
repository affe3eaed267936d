import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { isAlive } from './processes.js'

/** Stops the embedded server of a cluster, committed work kept, and waits until it is gone. @param {string} cluster */
export async function stopDatabase(cluster) {
  const file = join(cluster, 'postmaster.pid')
  if (!existsSync(file)) return
  const pid = Number(readFileSync(file, 'utf8').split('\n')[0])
  if (!isAlive(pid, 'postgres')) return
  process.kill(pid, 'SIGINT')
  for (let waited = 0; waited < 60_000 && isAlive(pid, 'postgres'); waited += 50) await pause(50)
}
