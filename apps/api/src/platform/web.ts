import { fileURLToPath } from 'node:url'
import fp from 'fastify-plugin'

/** Hands every path that is not the API's to the pages, in the same process. The only file that knows their framework. */
export const web = fp<{ hostname: string; port: number }>(
  async (app, { hostname, port }) => {
    const imported = (await import('next')) as unknown as { default: CreatePages | { default: CreatePages } }
    // A package of the older module kind: its function may stand one level deeper.
    const createPages = typeof imported.default === 'function' ? imported.default : imported.default.default
    const pages = createPages({
      dev: false,
      dir: fileURLToPath(new URL('../../../web', import.meta.url)),
      hostname,
      port,
    })
    await pages.prepare()
    const answer = pages.getRequestHandler()
    app.route({
      method: ['GET', 'HEAD'],
      url: '/*',
      config: { action: 'web:page' },
      handler: async (request, reply) => {
        if (request.url.startsWith('/api/')) return reply.callNotFound()
        // The framework reads the policy from the request and puts its nonce on every script.
        request.raw.headers['content-security-policy'] = request.contentPolicy
        for (const [name, value] of Object.entries(reply.getHeaders()))
          if (value !== undefined) reply.raw.setHeader(name, value)
        reply.hijack()
        await answer(request.raw, reply.raw)
      },
    })
    app.addHook('onClose', () => pages.close())
  },
  { name: 'web', dependencies: ['security-headers'] },
)

type Pages = {
  prepare(): Promise<void>
  close(): Promise<void>
  getRequestHandler(): (
    request: import('node:http').IncomingMessage,
    response: import('node:http').ServerResponse,
  ) => Promise<void>
}
type CreatePages = (options: { dev: boolean; dir: string; hostname: string; port: number }) => Pages
