import { parseArgs } from 'node:util'
import { reportFailure, StartFailure } from './failure.js'
import { buildPages } from './build-pages.js'
import { generateClient } from './generate-client.js'
import { installPackages } from './install-packages.js'
import { loadDemo } from './load-demo.js'
import { refuseFullDisk, refuseTakenPort, wantedAddress } from './preconditions.js'
import { prepareDatabase, serverEnvironment } from './prepare-database.js'
import { step } from './progress.js'
import { leaveDataFolder, takeDataFolder } from './running.js'
import { serve } from './serve.js'
import { showSignIns } from './sign-ins.js'
import { endRunning } from './run-command.js'
import { stopDatabase } from './stop-database.js'

/** `npm start`: from a clone to a served product, then until it is told to end. @param {string[]} args */
export async function start(args) {
  /** @type {string | null | undefined} */
  let cluster
  let took = false
  // What runs is ended in order: the server first, then, below, the database.
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.on(signal, endRunning)
  try {
    const { empty } = read(args)
    const address = wantedAddress()
    refuseFullDisk()
    await takeDataFolder()
    took = true
    await refuseTakenPort(address)

    await step('Installing packages', installPackages)
    await step('Making the database client', generateClient)
    const database = await prepareDatabase()
    cluster = database.cluster
    const env = serverEnvironment(database)
    const loads = database.laboratories === 0 && !empty
    if (loads) await step('Loading the demo laboratory', () => loadDemo(env))
    if (process.env.WEB !== 'off') await step('Building the pages', buildPages)
    await serve(env, address, () => (database.demo || loads ? showSignIns() : undefined))
  } catch (error) {
    reportFailure(error)
  } finally {
    if (cluster) await stopDatabase(cluster)
    if (took) leaveDataFolder()
  }
}

/** @param {string[]} args */
function read(args) {
  try {
    return parseArgs({ args, options: { empty: { type: 'boolean', default: false } } }).values
  } catch {
    throw new StartFailure(
      `“${args.join(' ')}” is not understood. The one choice is: npm start -- --empty (begin without the demo laboratory).`,
    )
  }
}
