import rateLimit from '@fastify/rate-limit'
import { createHash } from 'node:crypto'
import fp from 'fastify-plugin'
import { AppError } from './problem.ts'

/** Requests a minute to the API, counted for each signed-in device, or for each address without one. 0 sets no limit. */
export const rateLimits = fp<{ perMinute: number }>(
  async (app, { perMinute }) => {
    if (perMinute === 0) return
    await app.register(rateLimit, {
      max: perMinute,
      timeWindow: 60_000,
      allowList: (request) => !request.url.startsWith('/api/'),
      keyGenerator: (request) =>
        request.sessionToken === undefined
          ? `address:${request.ip}`
          : `session:${createHash('sha256').update(request.sessionToken).digest('base64')}`,
      errorResponseBuilder: (_, { ttl }) =>
        new AppError('too-many-requests', `Too many requests. Wait ${Math.ceil(ttl / 1000)} seconds.`),
    })
  },
  { name: 'rate-limits', dependencies: ['access'] },
)
