import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { StartError } from './start-error.ts'

const run = promisify(execFile)

/** Who the database server runs as; empty for whoever runs this process. */
export type RunAs = { uid?: number; gid?: number }

/**
 * PostgreSQL refuses to run as root, so root hands it to the system's `postgres` user, which is made when it is missing.
 * Throws StartError when there is none and none can be made.
 */
export async function unprivilegedUser(): Promise<RunAs> {
  if (process.getuid?.() !== 0) return {}
  const known = await idsOf('postgres')
  if (known) return known
  try {
    await run('groupadd', ['--system', 'postgres'])
    await run('useradd', ['--system', '--gid', 'postgres', '--no-create-home', '--shell', '/bin/sh', 'postgres'])
  } catch {
    // Another start may have made the user in the meantime; what counts is whether it is there now.
  }
  const made = await idsOf('postgres')
  if (made) return made
  throw new StartError(
    'The database cannot run as root, and no user “postgres” could be made on this machine. Start as an ordinary user, or make that user first.',
  )
}

async function idsOf(name: string): Promise<{ uid: number; gid: number } | undefined> {
  try {
    const [uid, gid] = await Promise.all([run('id', ['-u', name]), run('id', ['-g', name])])
    return { uid: Number(uid.stdout), gid: Number(gid.stdout) }
  } catch {
    return undefined
  }
}

/** Whether that user can go into a folder and write there. */
export async function canUse(folder: string, runAs: RunAs): Promise<boolean> {
  return run('/bin/sh', ['-c', 'cd "$0" && test -w .', folder], { ...runAs, cwd: '/' }).then(
    () => true,
    () => false,
  )
}
