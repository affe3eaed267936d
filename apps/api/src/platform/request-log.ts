import fp from 'fastify-plugin'
import { identityOf } from './access.ts'
import { withoutSecrets } from './logger.ts'

/** One line a request, when it is answered: who, what, how it ended. Refusals are warnings, so that they can be watched. */
export const requestLog = fp(
  async (app) => {
    app.addHook('onResponse', async (request, reply) => {
      const { actor, signedIn } = identityOf(request)
      const line = {
        method: request.method,
        path: withoutSecrets(request.url),
        action: request.routeOptions.config.action,
        status: reply.statusCode,
        ms: Math.ceil(reply.elapsedTime),
        address: request.ip,
        account: signedIn?.accountId,
        laboratory: actor?.labId,
      }
      if (reply.statusCode >= 400) request.log.warn(line, 'refused')
      else request.log.info(line, 'answered')
    })
  },
  { name: 'request-log' },
)
