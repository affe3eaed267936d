import { IdSchema } from '@curebook/contract/common'
import { EstimateQuerySchema, EstimatesSchema } from '@curebook/contract/estimates'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { EstimatesService } from './estimates.service.ts'

/** HTTP edge of the estimates before a series, under /api/labs/:lab. */
export const estimatesRoutes: FastifyPluginAsyncZod<{ service: EstimatesService }> = async (app, { service }) => {
  app.get('/designs/:design/estimates', {
    config: { action: 'design:read' },
    schema: {
      operationId: 'readEstimates',
      tags: ['Estimates'],
      params: labParams({ design: IdSchema }),
      querystring: EstimateQuerySchema,
      response: { 200: EstimatesSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.read(request.actor, request.params.design, request.query),
  })
}
