import swagger from '@fastify/swagger'
import swaggerUi from '@fastify/swagger-ui'
import fp from 'fastify-plugin'
import { jsonSchemaTransform } from 'fastify-type-provider-zod'
import { nameActionOf } from './access.ts'

/** Collects the contract of every route registered after it. */
export const openapi = fp<{ version: string }>(
  async (app, { version }) => {
    await app.register(swagger, {
      openapi: {
        openapi: '3.1.0',
        info: {
          title: 'Curebook',
          version,
          description:
            'The bench book of a surfacing laboratory. Errors are problems (RFC 9457) whose type ends in a closed code.',
        },
        components: { securitySchemes: { session: { type: 'apiKey', in: 'cookie', name: 'curebook.session_token' } } },
      },
      transform: jsonSchemaTransform,
      hideUntagged: true,
    })
    await app.register(async (docs) => {
      nameActionOf(docs, 'docs:read')
      await docs.register(swaggerUi, { routePrefix: '/api/docs', staticCSP: true })
    })
  },
  { name: 'openapi', dependencies: ['access'] },
)
