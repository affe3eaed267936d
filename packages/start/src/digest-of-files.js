import { createHash } from 'node:crypto'
import { readFileSync, readdirSync, statSync } from 'node:fs'
import { join, relative } from 'node:path'
import { root } from './project.js'

const left = new Set(['node_modules', '.next', 'generated', '.curebook'])

/**
 * One hash over the names and contents of files and folders of the project; tests and what is generated do not count.
 * @param {string[]} paths relative to the project
 */
export function digestOfFiles(paths) {
  const hash = createHash('sha256')
  for (const path of paths) {
    for (const file of filesUnder(join(root, path)))
      hash
        .update(`${relative(root, file)}\0`)
        .update(readFileSync(file))
        .update('\0')
  }
  return hash.digest('hex')
}

/** @param {string} path @returns {string[]} */
function filesUnder(path) {
  if (!statSync(path, { throwIfNoEntry: false })) return []
  if (!statSync(path).isDirectory()) return [path]
  const names = readdirSync(path).filter(
    (name) => !left.has(name) && !/\.test\.tsx?$|\.tsbuildinfo$|^next-env\.d\.ts$/.test(name),
  )
  return names.sort().flatMap((name) => filesUnder(join(path, name)))
}
