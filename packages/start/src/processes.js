import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'

/**
 * Whether a process lives and its command line holds the words: after a restart of the machine its number may have gone to
 * another program.
 * @param {number} pid @param {string[]} words
 */
export function isAlive(pid, ...words) {
  if (!Number.isInteger(pid) || pid <= 0) return false
  const command = commandLineOf(pid)
  return command !== '' && words.every((word) => command.includes(word))
}

/** @param {number} pid */
function commandLineOf(pid) {
  try {
    if (process.platform === 'linux') return readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ')
    return execFileSync('ps', ['-p', String(pid), '-o', 'args='], { encoding: 'utf8' })
  } catch {
    return ''
  }
}
