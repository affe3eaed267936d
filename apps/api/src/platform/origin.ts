import type { FastifyRequest } from 'fastify'
import type { Origin } from './auth.ts'

/** Where a request comes from, by our own reading of its address (trusted proxies only). */
export function originOf({ ip, headers }: FastifyRequest): Origin {
  return { address: ip, agent: headers['user-agent'], cookie: headers.cookie }
}
