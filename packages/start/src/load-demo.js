import { runCommand, typescript } from './run-command.js'

const script = 'apps/api/src/demo/load-demo.ts'
const mark = (/** @type {string} */ state) =>
  runCommand(process.execPath, typescript('packages/database/src/cli/mark-demo.ts', state), {
    failure: 'The database could not be marked.',
  })

/**
 * Loads the demo laboratory through the product's own services. A database whose loading was cut off is known by its mark and
 * emptied at the next start.
 * @param {NodeJS.ProcessEnv} env
 */
export async function loadDemo(env) {
  await mark('begun')
  await runCommand(process.execPath, typescript(script), { env, failure: 'The demo laboratory could not be loaded.' })
  await mark('ended')
  return ''
}
