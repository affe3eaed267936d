import { execFile } from 'node:child_process'
import { mkdir, rm } from 'node:fs/promises'
import path from 'node:path'
import { promisify } from 'node:util'
import { projectRoot } from '../../packages/database/src/migration-files.ts'

const run = promisify(execFile)

/**
 * Copies the project as it lies on the disk, packages included, and without its data. Packages are linked file by file where
 * the disk allows it: nothing writes to them.
 */
export async function copyProject(target: string): Promise<void> {
  await rm(target, { recursive: true, force: true })
  await mkdir(target, { recursive: true })
  const left = ['./node_modules', './.git', './.curebook', '.next*'].map((name) => `--exclude=${name}`).join(' ')
  await run('/bin/sh', ['-c', `tar -C "$0" ${left} -cf - . | tar -C "$1" -xf -`, projectRoot, target])
  const packages = path.join(projectRoot, 'node_modules')
  await run('cp', ['-al', packages, target]).catch(async () => {
    await rm(path.join(target, 'node_modules'), { recursive: true, force: true })
    await run('cp', ['-a', packages, target])
  })
}
