import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import { ResultSchema } from '@curebook/contract/results'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ResultsService } from './results.service.ts'

/** HTTP edge of results, under /api/labs/:lab. */
export const resultsRoutes: FastifyPluginAsyncZod<{ service: ResultsService }> = async (app, { service }) => {
  app.get('/results/:result', {
    config: { action: 'result:read' },
    schema: {
      operationId: 'readResult',
      tags: ['Results'],
      params: labParams({ result: IdSchema }),
      response: { 200: ResultSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.one(request.actor, request.params.result),
  })
}
