import { ProblemSchema } from '@curebook/contract/problem'
import { SearchAnswerSchema, SearchQuerySchema } from '@curebook/contract/search'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { SearchService } from './search.service.ts'

/** HTTP edge of the search, under /api/labs/:lab. */
export const searchRoutes: FastifyPluginAsyncZod<{ service: SearchService }> = async (app, { service }) => {
  app.get('/search', {
    config: { action: 'search:read' },
    schema: {
      operationId: 'search',
      tags: ['Search'],
      params: labParams({}),
      querystring: SearchQuerySchema,
      response: { 200: SearchAnswerSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.find(request.actor, request.query.q),
  })
}
