import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { readFileSync } from 'node:fs'
import { createControlledClock } from '#platform/clock'
import { readConfig } from '../config.ts'
import { createServices } from '../services.ts'
import { makeDemo } from './make-demo.ts'

/** The starter prints these sign-ins; the password stands in one place. */
const signIns = new URL('../../../../packages/start/src/demo-sign-ins.json', import.meta.url)

/** Loads the demonstration laboratory into an empty database. The clock is set in code alone: no switch of the server does it. */
async function load(): Promise<void> {
  const config = readConfig()
  const { appUrl, identityUrl, sealerUrl } = config.secrets
  const database = await openDatabase({ appUrl, identityUrl, sealerUrl })
  const clock = createControlledClock()
  const services = createServices({ database, clock, methods: builtInMethods, config, log: console })
  try {
    const { password } = JSON.parse(readFileSync(signIns, 'utf8')) as { password: string }
    await makeDemo({
      services,
      clock,
      now: new Date(),
      password,
      onStep: (step) => process.stdout.write(`  ${step}\n`),
    })
  } finally {
    await services.close()
    await database.close()
  }
}

load().catch((error: Error) => {
  process.stderr.write(`The demo laboratory could not be loaded. ${error.message}\n`)
  process.exit(1)
})
