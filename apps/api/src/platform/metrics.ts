import fastify, { type FastifyInstance, type FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'
import { collectDefaultMetrics, Histogram, Registry } from 'prom-client'
import { AppError } from './problem.ts'

/**
 * Prometheus metrics: process, event loop, requests by route. On a port of their own when one is given, else at /metrics for
 * this machine only, and not through a proxy on it.
 */
export const metrics = fp<{ host: string; port: number | undefined }>(
  async (app, { host, port }) => {
    const registry = new Registry()
    collectDefaultMetrics({ register: registry })
    const duration = new Histogram({
      name: 'curebook_request_seconds',
      help: 'Time from a request to its answer',
      labelNames: ['method', 'route', 'status'],
      buckets: [0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5],
      registers: [registry],
    })
    app.addHook('onResponse', async (request, reply) => {
      duration.observe(
        { method: request.method, route: request.routeOptions.url ?? 'none', status: reply.statusCode },
        reply.elapsedTime / 1000,
      )
    })
    app.addHook('onClose', async () => registry.clear())

    if (port === undefined) {
      addRoute(app, registry, refuseOthers)
      return
    }
    const own = fastify({ logger: false, forceCloseConnections: true })
    addRoute(own, registry, () => undefined)
    app.addHook('onClose', () => own.close())
    await own.listen({ host, port })
  },
  { name: 'metrics' },
)

function addRoute(app: FastifyInstance, registry: Registry, guard: (request: FastifyRequest) => void): void {
  app.get(
    '/metrics',
    { config: { action: 'metrics:read' }, logLevel: 'warn', schema: { hide: true } },
    async (request, reply) => {
      guard(request)
      return reply.type(registry.contentType).send(await registry.metrics())
    },
  )
}

function refuseOthers({ socket, headers }: FastifyRequest): void {
  const here = /^(::1|(::ffff:)?127\.\d+\.\d+\.\d+)$/.test(socket.remoteAddress ?? '')
  const forwarded = ['x-forwarded-for', 'forwarded', 'x-real-ip', 'via'].some((name) => headers[name] !== undefined)
  if (!here || forwarded) throw new AppError('not-found', 'There is nothing at GET /metrics.')
}
