import { createHash } from 'node:crypto'
import { chmod, chown, mkdir, readFile, readdir, stat, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { systemFolder } from './server-binaries.ts'
import { StartError } from './start-error.ts'
import { canUse, type RunAs } from './unprivileged-user.ts'

/** The major version of the server that is shipped; its number is part of the folder's name. */
export const majorVersion = 18

/**
 * The folder of the cluster: `<data folder>/pg18`, or a folder under /var/lib/curebook when root starts from where no other
 * user can go (a clone under /root). A file `pg18.folder` in the data folder remembers the latter, also after a move.
 * Throws StartError on data of another major version, and where nothing can be written.
 */
export async function clusterFolder(dataFolder: string, runAs: RunAs): Promise<string> {
  await refuseOtherMajor(dataFolder)
  const remembered = path.join(dataFolder, `pg${majorVersion}.folder`)
  const elsewhere = (await readFile(remembered, 'utf8').catch(() => '')).trim()
  if (elsewhere !== '' && (await stat(elsewhere).catch(() => undefined))) return elsewhere

  const inside = path.join(dataFolder, `pg${majorVersion}`)
  await makeFolder(inside, runAs)
  if (await canUse(inside, runAs)) return inside
  if (runAs.uid === undefined)
    throw new StartError(
      `The folder ${inside} cannot be written. Give its owner's user the right, or name another folder in CUREBOOK_DATA.`,
    )

  const name = `${path.basename(path.dirname(dataFolder))}-${createHash('sha256').update(path.resolve(dataFolder)).digest('hex').slice(0, 12)}`
  const outside = path.join(systemFolder, name, `pg${majorVersion}`)
  await makeFolder(outside, runAs)
  await chmod(systemFolder, 0o755)
  await chmod(path.dirname(outside), 0o755)
  if (!(await canUse(outside, runAs)))
    throw new StartError(
      `The folder ${outside} cannot be used by the database's user. Name another folder in CUREBOOK_DATA.`,
    )
  await writeFile(remembered, `${outside}\n`)
  return outside
}

async function makeFolder(folder: string, { uid, gid }: RunAs): Promise<void> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o755 })
    await chmod(folder, 0o700)
    if (uid !== undefined && gid !== undefined) await chown(folder, uid, gid)
  } catch (error) {
    throw new StartError(
      `The folder ${folder} cannot be made: ${(error as Error).message}. Name another folder in CUREBOOK_DATA.`,
    )
  }
}

async function refuseOtherMajor(dataFolder: string): Promise<void> {
  const names = await readdir(dataFolder).catch((): string[] => [])
  const others = names.filter((name) => /^pg\d+$/.test(name) && name !== `pg${majorVersion}`)
  for (const name of others) {
    const made = await readFile(path.join(dataFolder, name, 'PG_VERSION'), 'utf8').catch(() => undefined)
    if (made !== undefined && !names.includes(`pg${majorVersion}`))
      throw otherMajor(path.join(dataFolder, name), made.trim())
  }
}

/** Throws StartError when the cluster was made by another major version; it is left as it is. */
export async function refuseForeignCluster(cluster: string): Promise<void> {
  const made = (await readFile(path.join(cluster, 'PG_VERSION'), 'utf8').catch(() => '')).trim()
  if (made !== '' && made !== String(majorVersion)) throw otherMajor(cluster, made)
}

const otherMajor = (folder: string, made: string) =>
  new StartError(
    `The data in ${folder} was made by PostgreSQL ${made}, and this version of Curebook runs PostgreSQL ${majorVersion}. Nothing was touched. Make a backup with the version of Curebook that made it (npm run backup), move the folder away, and restore (npm run restore).`,
  )
