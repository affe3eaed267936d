import type { Database } from '@curebook/database/open-database'
import fastify, { type FastifyInstance, LogController } from 'fastify'
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod'
import { randomUUID } from 'node:crypto'
import { attachmentsRoutes } from '#features/attachments/attachments.routes'
import { benchRoutes } from '#features/bench/bench.routes'
import { observationsRoutes } from '#features/bench/observations.routes'
import { clientsRoutes } from '#features/clients/clients.routes'
import { custodyRoutes } from '#features/custody/custody.routes'
import { designsRoutes } from '#features/designs/designs.routes'
import { deviationsRoutes } from '#features/bench/deviations.routes'
import { conditionPostRoutes, conditionsRoutes } from '#features/bench/conditions.routes'
import { loadsRoutes } from '#features/bench/loads.routes'
import { firstRunRoutes } from '#features/first-run/first-run.routes'
import { handOversRoutes } from '#features/hand-overs/hand-overs.routes'
import { instrumentImportsRoutes } from '#features/instruments/instrument-imports.routes'
import { instrumentsRoutes } from '#features/instruments/instruments.routes'
import { upkeepRoutes } from '#features/instruments/upkeep.routes'
import { labelsRoutes } from '#features/labels/labels.routes'
import { laboratoryRoutes } from '#features/laboratory/laboratory.routes'
import { ledgerRoutes } from '#features/ledger/ledger.routes'
import { mailRoutes } from '#features/mail/mail.routes'
import { materialsRoutes } from '#features/materials/materials.routes'
import { methodsRoutes } from '#features/methods/methods.routes'
import { authorisationsRoutes } from '#features/people/authorisations.routes'
import { invitationRoutes, peopleRoutes } from '#features/people/people.routes'
import { noticesRoutes } from '#features/notices/notices.routes'
import { projectsRoutes } from '#features/projects/projects.routes'
import { resultsRoutes } from '#features/results/results.routes'
import { progressRoutes } from '#features/progress/progress.routes'
import { estimatesRoutes } from '#features/estimates/estimates.routes'
import { rangeRoutes } from '#features/range/range.routes'
import { recommendationsRoutes } from '#features/recommendations/recommendations.routes'
import { expectedDaysRoutes } from '#features/expected-days/expected-days.routes'
import { questionsRoutes } from '#features/questions/questions.routes'
import { reportCheckRoutes, reportPreviewRoutes, reportsRoutes } from '#features/reports/reports.routes'
import { reviewRoutes } from '#features/review/review.routes'
import { scheduleRoutes } from '#features/schedule/schedule.routes'
import { searchRoutes } from '#features/search/search.routes'
import { deviceRoutes, pinRoutes } from '#features/session/device.routes'
import { signedInRoutes } from '#features/session/signed-in.routes'
import { sessionRoutes } from '#features/session/session.routes'
import { projectSpecificationsRoutes } from '#features/project-specifications/project-specifications.routes'
import { specificationsRoutes } from '#features/specifications/specifications.routes'
import { trialsRoutes } from '#features/trials/trials.routes'
import { validationRoutes } from '#features/validation/validation.routes'
import { wallRoutes, wallScreensRoutes } from '#features/wall/wall.routes'
import { access } from '#platform/access'
import type { Clock } from '#platform/clock'
import { healthRoutes } from '#platform/health'
import { liveRoutes } from '#platform/live.routes'
import { loggerOptions } from '#platform/logger'
import { refuseMightyLogin } from '#platform/login-check'
import { metrics } from '#platform/metrics'
import { openapi } from '#platform/openapi'
import { problemHandler } from '#platform/problem-handler'
import { rateLimits } from '#platform/rate-limits'
import { sameSite } from '#platform/same-site'
import { requestLog } from '#platform/request-log'
import { securityHeaders } from '#platform/security-headers'
import { sessionCookieName } from '#platform/session-cookie'
import { storableText } from '#platform/storable-text'
import { web } from '#platform/web'
import type { Config } from './config.ts'
import type { Services } from './services.ts'

export type AppOptions = { config: Config; database: Database; clock: Clock; services: Services }

/** The whole server, not listening yet: what every request passes, then one line a feature. */
export async function buildApp({ config, database, services }: AppOptions): Promise<FastifyInstance> {
  await refuseMightyLogin(database.pool, 'DATABASE_URL_APP')
  await refuseMightyLogin(database.identityPool, 'DATABASE_URL_IDENTITY')
  await services.auth.checkSchema()
  await services.testMethods.copyBuiltInEverywhere()

  const app = fastify({
    logger: loggerOptions(config.logLevel),
    // One line a request, from request-log.ts.
    logController: new LogController({ disableRequestLogging: true }),
    genReqId: () => randomUUID(),
    trustProxy: config.trustProxy.length > 0 ? config.trustProxy : false,
    exposeHeadRoutes: false,
    forceCloseConnections: true,
    bodyLimit: 1_048_576,
    routerOptions: { maxParamLength: 200 },
  })
  app.setValidatorCompiler(validatorCompiler)
  app.setSerializerCompiler(serializerCompiler)
  // JSON only: a plain form of another site cannot send it.
  app.removeContentTypeParser('text/plain')
  app.addHook('onRequest', async (request, reply) => void reply.header('x-request-id', request.id))

  const cookieName = sessionCookieName(config.publicUrl)
  await app.register(requestLog)
  await app.register(problemHandler)
  await app.register(securityHeaders, { publicUrl: config.publicUrl })
  await app.register(sameSite, { publicUrl: config.publicUrl })
  await app.register(access, { identify: services.identify, cookieName, secret: config.secrets.authSecret })
  await app.register(rateLimits, { perMinute: config.rateLimit })
  await app.register(storableText)
  await app.register(metrics, { host: config.host, port: config.metricsPort })
  await app.register(openapi, { version: '1' })

  await app.register(healthRoutes, { database })
  await app.register(
    async (api) => {
      await api.register(sessionRoutes, { service: services.session, cookieName })
      await api.register(pinRoutes, { service: services.devices })
      await api.register(firstRunRoutes, { service: services.firstRun })
      await api.register(invitationRoutes, { invitations: services.invitations })
      await api.register(conditionPostRoutes, { service: services.conditions })
      await api.register(reportCheckRoutes, { service: services.reports })
      await api.register(wallRoutes, { service: services.wall })
    },
    { prefix: '/api' },
  )
  await app.register(
    async (api) => {
      await api.register(laboratoryRoutes, { service: services.laboratories })
      await api.register(liveRoutes, { live: services.live, identify: services.identify })
      await api.register(peopleRoutes, { people: services.people, invitations: services.invitations })
      await api.register(authorisationsRoutes, { service: services.authorisations })
      await api.register(clientsRoutes, { service: services.clients })
      await api.register(projectsRoutes, { service: services.projects })
      await api.register(materialsRoutes, { service: services.materials })
      const { custody, receipts, places, stock } = services
      await api.register(custodyRoutes, { custody, receipts, places, stock })
      await api.register(labelsRoutes, { service: services.labels })
      await api.register(specificationsRoutes, { service: services.specifications })
      await api.register(projectSpecificationsRoutes, { service: services.projectSpecifications })
      await api.register(methodsRoutes, { service: services.testMethods })
      await api.register(deviceRoutes, { service: services.devices })
      await api.register(signedInRoutes, { service: services.signedIn })
      await api.register(instrumentsRoutes, { service: services.instruments })
      await api.register(instrumentImportsRoutes, { service: services.instrumentImports })
      await api.register(upkeepRoutes, { parts: services.parts, checks: services.checks, lines: services.lines })
      await api.register(attachmentsRoutes, { service: services.attachments })
      await api.register(designsRoutes, { service: services.designs })
      await api.register(trialsRoutes, { service: services.trials })
      await api.register(searchRoutes, { service: services.search })
      await api.register(scheduleRoutes, { service: services.schedule })
      await api.register(handOversRoutes, { service: services.handOvers })
      await api.register(mailRoutes, { service: services.mail })
      await api.register(noticesRoutes, { service: services.notices })
      await api.register(benchRoutes, { services: services.bench })
      await api.register(observationsRoutes, { service: services.observations })
      await api.register(deviationsRoutes, { service: services.deviations })
      await api.register(loadsRoutes, { service: services.loads })
      await api.register(conditionsRoutes, { service: services.conditions })
      await api.register(resultsRoutes, { service: services.results })
      await api.register(estimatesRoutes, { service: services.estimates })
      await api.register(rangeRoutes, {
        service: services.range,
        panelTests: services.panelTests,
        replicates: services.replicates,
      })
      await api.register(recommendationsRoutes, { service: services.recommendations })
      await api.register(reviewRoutes, { service: services.review })
      await api.register(reportsRoutes, { service: services.reports })
      await api.register(reportPreviewRoutes, { service: services.reports })
      await api.register(progressRoutes, { service: services.progress })
      await api.register(questionsRoutes, { service: services.questions })
      await api.register(expectedDaysRoutes, { service: services.expectedDays })
      await api.register(wallScreensRoutes, { service: services.wallScreens })
      await api.register(validationRoutes, { service: services.validation })
      await api.register(ledgerRoutes, { service: services.ledger })
    },
    { prefix: '/api/labs/:lab' },
  )
  if (config.web) await app.register(web, { hostname: config.host, port: config.port })

  app.addHook('onClose', () => services.close())
  return app
}
