import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { StartFailure } from './failure.js'
import { root } from './project.js'

const longest = 400
const source = /\.(ts|tsx|js|mjs|cjs|css)$/
/** Tables of data, words, and SQL may be as long as they need; so may generated type lists. */
const data = /(^|\/)(messages|reference-cases|editions|limits)\/|\.words\.ts$|next-env\.d\.ts$/
/** A method of some object that is called `fit` is none of these; `runIf` stays for what needs to be root or a small disk. */
const skipped = /\b(describe|it|test)\s*\.\s*(skip|only|todo|fails)\b|(?<![.\w])(xit|xdescribe|fit|fdescribe)\s*\(/
/** Paths of somebody's machine, and hosts of package registries: the project has nothing to do with either. */
const foreign = new RegExp(
  [
    '/ho' + 'me/[a-z]',
    '/Use' + 'rs/[a-z]',
    '/wo' + 'rk/',
    'registry\\.np' + 'mjs',
    'deb\\.deb' + 'ian\\.org',
    'C:\\\\Use' + 'rs',
  ].join('|'),
  'i',
)

/** Throws StartFailure with every rule of the tree that a tracked file breaks; needs git only to know which are tracked. */
export function checkTree() {
  const troubles = trackedFiles().flatMap(troublesOf)
  if (troubles.length > 0) throw new StartFailure(troubles.join('\n'))
}

function trackedFiles() {
  try {
    return execFileSync('git', ['ls-files', '-z'], {
      cwd: root,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      maxBuffer: 64 * 1024 * 1024,
    })
      .split('\0')
      .filter(Boolean)
  } catch {
    throw new StartFailure('The files of the project could not be listed: git is missing, or this is not a clone.')
  }
}

/** @param {string} file @returns {string[]} */
function troublesOf(file) {
  if (!/\.(ts|tsx|js|mjs|cjs|css|md|json|ya?ml|prisma|sql|sh|svg)$|(^|\/)(Dockerfile|run|\.env\.example)$/.test(file))
    return []
  const text = contentOf(file)
  if (text === undefined) return []
  const lines = text.split('\n')
  const troubles = []
  if (source.test(file) && !data.test(file) && lines.length - 1 > longest)
    troubles.push(`${file}: ${lines.length - 1} lines; past ${longest} a file is cut in two`)
  lines.forEach((line, index) => {
    const where = `${file}:${index + 1}`
    if (/\.test\.tsx?$/.test(file) && skipped.test(line))
      troubles.push(`${where}: a test that is skipped or runs alone`)
    if (basename(file) !== 'package-lock.json' && foreign.test(line))
      troubles.push(`${where}: the path of a machine, or the host of a registry`)
  })
  if (file.endsWith('.md')) troubles.push(...unknownScripts(file, text))
  return troubles
}

/** Scripts that a document names and package.json has not. @param {string} file @param {string} text */
function unknownScripts(file, text) {
  const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
  const named = [...text.matchAll(/\bnpm run ([a-z][\w:-]*)/g)].map(([, name = '']) => name)
  return [...new Set(named)]
    .filter((name) => !(name in scripts))
    .map((name) => `${file}: names the script “${name}”, which package.json has not`)
}

/** @param {string} file */
function contentOf(file) {
  try {
    return readFileSync(join(root, file), 'utf8')
  } catch {
    // Tracked and taken away: the next commit will say so.
    return undefined
  }
}
