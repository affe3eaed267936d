import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import closeWithGrace from 'close-with-grace'
import { createControlledClock, createSystemClock } from '#platform/clock'
import { openClockSocket } from '#platform/clock-socket'
import { buildApp } from './app.ts'
import { readConfig } from './config.ts'
import { createServices } from './services.ts'

/** Opens everything, listens, and closes in order when told to end. */
async function serve(): Promise<void> {
  const config = readConfig()
  const { appUrl, identityUrl, sealerUrl } = config.secrets
  const database = await openDatabase({ appUrl, identityUrl, sealerUrl })
  const controlled = config.clock.kind === 'controlled' ? createControlledClock() : undefined
  const clock = controlled ?? createSystemClock()
  const services = createServices({ database, clock, methods: builtInMethods, config, log: console })
  const app = await buildApp({ config, database, clock, services })
  const clockSocket =
    controlled && config.clock.kind === 'controlled'
      ? await openClockSocket(controlled, config.clock.socket)
      : undefined

  closeWithGrace({ delay: 10_000, logger: app.log }, async () => {
    clockSocket?.close()
    await app.close()
    await database.close()
  })

  services.sealer.start()
  if (config.jobs) services.startMail()
  const address = await app.listen({ host: config.host, port: config.port })
  const code = await services.firstRun.codeToPrint()
  process.stdout.write(`Curebook listens on ${config.publicUrl ?? address}\n`)
  if (code !== null)
    process.stdout.write(
      `No laboratory stands yet. Open ${config.publicUrl ?? address}/first-run and enter this one-time code: ${code}\n`,
    )
}

serve().catch((error: NodeJS.ErrnoException & { port?: number }) => {
  const taken =
    error.code === 'EADDRINUSE'
      ? `The port ${error.port} is taken by another program. Choose another one: PORT=3100.`
      : undefined
  process.stderr.write(`Curebook did not start. ${taken ?? error.message}\n`)
  process.exit(1)
})
