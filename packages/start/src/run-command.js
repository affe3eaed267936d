import { spawn } from 'node:child_process'
import { StartFailure } from './failure.js'
import { root } from './project.js'

/** @type {Set<import('node:child_process').ChildProcess>} */
const running = new Set()
let interrupted = false

/** Counts a child among those that endRunning reaches, while it lives. @param {import('node:child_process').ChildProcess} child */
export function follow(child) {
  if (interrupted) child.kill('SIGTERM')
  running.add(child)
  child.once('exit', () => running.delete(child))
}

/** Ends what runs now and lets nothing new run; a second call does not wait any longer. */
export function endRunning() {
  for (const child of running) child.kill(interrupted ? 'SIGKILL' : 'SIGTERM')
  interrupted = true
}

export const wasInterrupted = () => interrupted

/**
 * Runs a program quietly in the project's folder and returns what it wrote to stdout; when it fails, throws a StartFailure
 * with the sentence and the end of what it wrote.
 * @param {string} program @param {string[]} args
 * @param {{ failure: string, env?: NodeJS.ProcessEnv, cwd?: string, lastLines?: number, onLine?: (line: string) => void }} options
 * @returns {Promise<string>}
 */
export function runCommand(program, args, { failure, env, cwd = root, onLine, lastLines = 25 }) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd, env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'pipe'] })
    follow(child)
    let stdout = ''
    let all = ''
    let rest = ''
    child.stdout.setEncoding('utf8').on('data', (text) => {
      stdout += text
      all += text
      const lines = (rest + text).split('\n')
      rest = lines.pop() ?? ''
      if (onLine) lines.forEach(onLine)
    })
    child.stderr.setEncoding('utf8').on('data', (text) => (all += text))
    child.on('error', (error) => reject(new StartFailure(`${failure} ${error.message}`)))
    child.on('close', (code, signal) => {
      if (interrupted) return reject(new StartFailure('Ended before it was ready. Start again to go on from here.'))
      if (code === 0) return resolve(stdout)
      const tail = all.trim().split('\n').slice(-lastLines).join('\n')
      const why = /ENOSPC|No space left/.test(all) ? 'The disk is full.' : failure
      reject(new StartFailure(`${why}\n${tail || `It ended with ${signal ?? code}.`}`))
    })
  })
}

/** Node's arguments that run a script of the product's TypeScript. */
export const typescript = (/** @type {string} */ script, /** @type {string[]} */ ...args) => [
  '--import',
  'tsx',
  script,
  ...args,
]
