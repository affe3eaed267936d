import helmet from '@fastify/helmet'
import { randomBytes } from 'node:crypto'
import fp from 'fastify-plugin'

declare module 'fastify' {
  interface FastifyRequest {
    /** The policy of the page, with this answer's nonce; set on web routes. */
    contentPolicy: string
  }
}

/** What of a tablet our own pages may ask for: the camera for codes, the serial line for balances. */
const devices = 'camera=(self), serial=(self), geolocation=(), microphone=()'

/** Security headers of every answer. JSON may load nothing; pages may run only scripts that carry the answer's nonce. */
export const securityHeaders = fp<{ publicUrl: string | undefined }>(
  async (app, { publicUrl }) => {
    await app.register(helmet, {
      contentSecurityPolicy: false,
      strictTransportSecurity: publicUrl?.startsWith('https:')
        ? { maxAge: 31_536_000, includeSubDomains: true }
        : false,
      referrerPolicy: { policy: 'same-origin' },
      xFrameOptions: { action: 'deny' },
    })
    app.decorateRequest('contentPolicy', '')
    app.addHook('onRequest', async (request, reply) => {
      const { action, framed } = request.routeOptions.config
      if (action === 'docs:read') return
      const isPage = action === 'web:page'
      request.contentPolicy = isPage
        ? pagePolicy(randomBytes(18).toString('base64'), publicUrl)
        : `default-src 'none'; frame-ancestors ${framed ? "'self'" : "'none'"}`
      if (framed) reply.header('x-frame-options', 'SAMEORIGIN')
      reply.header('content-security-policy', request.contentPolicy)
      reply.header('permissions-policy', devices)
      if (!isPage) reply.header('cache-control', 'no-store')
    })
  },
  { name: 'security-headers' },
)

function pagePolicy(nonce: string, publicUrl: string | undefined): string {
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'`,
    // Components place their popovers with style attributes, which no nonce can cover.
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    ...(publicUrl?.startsWith('https:') ? ['upgrade-insecure-requests'] : []),
  ].join('; ')
}
