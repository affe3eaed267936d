import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { FastifyInstance } from 'fastify'
import { buildApp } from '../../apps/api/src/app.ts'
import type { Config } from '../../apps/api/src/config.ts'
import { createControlledClock } from '../../apps/api/src/platform/clock.ts'
import { createServices } from '../../apps/api/src/services.ts'
import { cloneDatabase, type ClonedDatabase } from './database.ts'

export const testSecret = 'a secret that only the tests know, long enough'

export type TestAppOptions = {
  /** Where the clock starts, ISO 8601; it moves only when told. */
  now?: string
  methods?: readonly MethodDeclaration[]
  config?: Partial<Omit<Config, 'secrets'>>
  setupCode?: string
  /** Whether entries are sealed all the time, as in the running product; otherwise only when something asks for it. */
  sealing?: boolean
  /** A database at hand, outside a test file. */
  clone?: ClonedDatabase
}

export type TestApp = Awaited<ReturnType<typeof startTestApp>>

/** The whole server on a database of its own, listening on a free port of this machine. One a file. */
export async function startTestApp(options: TestAppOptions = {}) {
  const clone = options.clone ?? (await cloneDatabase())
  const clock = createControlledClock(options.now ?? '2026-03-02T07:00:00Z')
  const { appUrl, identityUrl, sealerUrl } = clone
  const config: Config = {
    production: false,
    host: '127.0.0.1',
    port: 0,
    publicUrl: undefined,
    trustProxy: [],
    logLevel: 'silent',
    web: false,
    jobs: false,
    clock: { kind: 'system' },
    metricsPort: undefined,
    rateLimit: 0,
    ...options.config,
    secrets: { appUrl, identityUrl, sealerUrl, authSecret: testSecret, setupCode: options.setupCode },
  }
  const database = await openDatabase({ appUrl, identityUrl, sealerUrl })
  const services = createServices({ database, clock, methods: options.methods ?? builtInMethods, config })
  const app = await buildApp({ config, database, clock, services })
  const url = await app.listen({ host: '127.0.0.1', port: 0 })
  if (options.sealing) services.sealer.start()

  return {
    app,
    url,
    services,
    clock,
    database,
    config,
    /** The owner's connection, for tests that damage or inspect; the product never has it. */
    ownerUrl: clone.ownerUrl,
    /** Another process' server on the same database, with routes of the test's own. */
    async startAnother(addRoutes: (app: FastifyInstance) => void = () => undefined) {
      const again = await openDatabase({ appUrl, identityUrl, sealerUrl })
      const others = createServices({ database: again, clock, methods: options.methods ?? builtInMethods, config })
      const second = await buildApp({ config, database: again, clock, services: others })
      addRoutes(second)
      const secondUrl = await second.listen({ host: '127.0.0.1', port: 0 })
      return {
        app: second,
        url: secondUrl,
        services: others,
        async close() {
          await second.close()
          await again.close()
        },
      }
    },
    async close() {
      await app.close()
      await database.close()
      await clone.drop()
    },
  }
}
