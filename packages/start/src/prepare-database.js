import { StartFailure } from './failure.js'
import { beginStep } from './progress.js'
import { runCommand, typescript } from './run-command.js'

/** @typedef {{ urls: { app: string, identity: string, sealer: string }, authSecret: string, laboratories: number, demo: boolean, cluster: string | null, reused: boolean }} Prepared */

/**
 * Starts the embedded database (or reaches the one of DATABASE_URL), makes the logins and migrates, a line for each step.
 * @param {{ quiet?: boolean }} [options] @returns {Promise<Prepared>}
 */
export async function prepareDatabase({ quiet = false } = {}) {
  /** @type {any} */
  let ready
  /** @type {{ failed: string, plain: boolean } | undefined} */
  let failed
  /** @type {((outcome?: string) => void) | undefined} */
  let end
  const onLine = (/** @type {string} */ line) => {
    const message = JSON.parse(line)
    if (message.step) end = quiet ? undefined : beginStep(message.step)
    else if (message.done !== undefined) (end?.(message.done), (end = undefined))
    else if (message.failed) failed = message
    else ready = message.ready
  }
  try {
    await runCommand(process.execPath, typescript('packages/database/src/cli/prepare.ts'), {
      onLine,
      failure: 'The database could not be prepared.',
    })
  } catch (error) {
    end?.('failed')
    throw failed ? (failed.plain ? new StartFailure(failed.failed) : new Error(failed.failed)) : error
  }
  return ready
}

/**
 * The server's environment: its three logins, never the owner's.
 * @param {Prepared} database @returns {NodeJS.ProcessEnv}
 */
export function serverEnvironment({ urls, authSecret }) {
  return {
    NODE_ENV: 'production',
    LOG_LEVEL: process.env.LOG_LEVEL || 'warn',
    NEXT_TELEMETRY_DISABLED: '1',
    DATABASE_URL: '',
    DATABASE_URL_APP: urls.app,
    DATABASE_URL_IDENTITY: urls.identity,
    DATABASE_URL_SEALER: urls.sealer,
    AUTH_SECRET: authSecret,
  }
}
