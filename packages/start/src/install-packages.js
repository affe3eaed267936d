import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './project.js'
import { runCommand } from './run-command.js'

/** Installs what package-lock.json names and node_modules does not hold; says so when there is nothing to do. */
export async function installPackages() {
  if (isInstalled()) return 'nothing to do'
  // A folder that is there is brought up to date; without one the lock is followed to the letter.
  const command = existsSync(join(root, 'node_modules')) ? 'install' : 'ci'
  const args = [command, '--include=dev', '--include=optional', '--no-audit', '--no-fund', '--loglevel=error']
  const npm = process.env.npm_execpath
  const [program, first] = npm ? [process.execPath, [npm]] : ['npm', []]
  await runCommand(program, [...first, ...args], {
    failure: 'The packages could not be installed. Is the npm registry reachable from here?',
  })
  return ''
}

/** Whether npm's own list of what lies in node_modules agrees with package-lock.json. */
function isInstalled() {
  const wanted = packagesOf(join(root, 'package-lock.json'))
  const there = packagesOf(join(root, 'node_modules', '.package-lock.json'))
  if (!wanted || !there) return false
  return Object.entries(wanted).every(([path, { version, optional, link }]) => {
    if (!path.includes('node_modules/') || link) return true
    // Optional packages are those of other machines, too.
    if (!there[path]) return optional === true
    // A workspace keeps a few of its own, which a copied tree easily lacks.
    return there[path].version === version && (path.startsWith('node_modules/') || existsSync(join(root, path)))
  })
}

/** @param {string} file @returns {Record<string, { version?: string, optional?: boolean, link?: boolean }> | undefined} */
function packagesOf(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).packages : undefined
}
