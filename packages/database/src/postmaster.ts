import { execFile } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)

/** What a cluster's postmaster.pid says. */
export type Postmaster = { pid: number; port: number; ready: boolean }

/** The server that the cluster's pid file names; undefined when there is no file, or one without a process number. */
export async function readPostmaster(cluster: string): Promise<Postmaster | undefined> {
  const text = await readFile(path.join(cluster, 'postmaster.pid'), 'utf8').catch(() => '')
  const lines = text.split('\n').map((line) => line.trim())
  const pid = Number(lines[0])
  if (!Number.isInteger(pid) || pid <= 0) return undefined
  return { pid, port: Number(lines[3]), ready: lines[7] === 'ready' }
}

/**
 * Whether the process is a PostgreSQL server of that very cluster. After a power cut the number in the pid file may have gone
 * to any other program.
 */
export async function isServerOf(pid: number, cluster: string): Promise<boolean> {
  const command = await commandLineOf(pid)
  return command !== undefined && /postgres/.test(command) && command.includes(cluster)
}

/** The command line of a live process; undefined when there is none. */
export async function commandLineOf(pid: number): Promise<string | undefined> {
  if (process.platform === 'linux') {
    const raw = await readFile(`/proc/${pid}/cmdline`, 'utf8').catch(() => '')
    return raw === '' ? undefined : raw.replaceAll('\0', ' ').trim()
  }
  return run('ps', ['-p', String(pid), '-o', 'args=']).then(
    ({ stdout }) => stdout.trim() || undefined,
    () => undefined,
  )
}
