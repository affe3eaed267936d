import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { createSystemClock } from '#platform/clock'
import { readConfig } from '../config.ts'
import { createServices, type Services } from '../services.ts'

/** Runs a command's work over the services, with the server's own logins, and ends what they hold open. */
export async function onDatabase<T>(work: (services: Services) => Promise<T>): Promise<T> {
  const config = readConfig()
  const database = await openDatabase(config.secrets)
  const services = createServices({
    database,
    clock: createSystemClock(),
    methods: builtInMethods,
    config,
    log: console,
  })
  try {
    return await work(services)
  } finally {
    await services.close()
    await database.close()
  }
}

/** Sets the process' exit code: what the work says, 2 with the reason when it could not be done. */
export function exitWith(work: Promise<number>, failed: string): void {
  work.then(
    (code) => {
      process.exitCode = code
    },
    (error: Error) => {
      process.stderr.write(`${failed} ${error.message}\n`)
      process.exitCode = 2
    },
  )
}
