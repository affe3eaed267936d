import { spawn } from 'node:child_process'
import { generateClient } from './generate-client.js'
import { reportFailure } from './failure.js'
import { prepareDatabase, serverEnvironment } from './prepare-database.js'
import { root } from './project.js'
import { follow, endRunning, typescript } from './run-command.js'
import { stopDatabase } from './stop-database.js'

// `run-script <script> [arguments]`: runs a command of the product with the logins that the server would have. The embedded
// database is started for it and stopped afterwards, unless the product runs.
const [script = '', ...args] = process.argv.slice(2)
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.on(signal, endRunning)
/** @type {Awaited<ReturnType<typeof prepareDatabase>> | undefined} */
let database
try {
  await generateClient()
  database = await prepareDatabase({ quiet: true })
  const child = spawn(process.execPath, typescript(script, ...args), {
    cwd: root,
    env: { ...process.env, ...serverEnvironment(database) },
    stdio: 'inherit',
  })
  follow(child)
  process.exitCode = await new Promise((resolve) => child.on('close', (code) => resolve(code ?? 1)))
} catch (error) {
  reportFailure(error)
} finally {
  if (database?.cluster && !database.reused) await stopDatabase(database.cluster)
}
