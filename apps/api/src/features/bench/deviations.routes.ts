import { IdSchema, pageOf } from '@curebook/contract/common'
import { DecideDeviationSchema, DeviationSchema } from '@curebook/contract/deviations'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import type { DeviationsService } from './deviations.service.ts'

const DeviationsQuery = z.strictObject({ open: z.enum(['yes', 'no']).default('no'), designId: IdSchema.optional() })

/** HTTP edge of deviations, under /api/labs/:lab. */
export const deviationsRoutes: FastifyPluginAsyncZod<{ service: DeviationsService }> = async (app, { service }) => {
  app.get('/deviations', {
    config: { action: 'deviation:read' },
    schema: {
      operationId: 'listDeviations',
      tags: ['Deviations'],
      params: labParams(),
      querystring: DeviationsQuery,
      response: { 200: pageOf(DeviationSchema), '4xx': ProblemSchema },
    },
    handler: (request) =>
      service.list(request.actor, { open: request.query.open === 'yes', designId: request.query.designId ?? null }),
  })
  app.post('/deviations/:deviation/decisions', {
    config: { action: 'deviation:decide' },
    schema: {
      operationId: 'decideDeviation',
      tags: ['Deviations'],
      params: labParams({ deviation: IdSchema }),
      body: DecideDeviationSchema,
      response: { 200: DeviationSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.decide(request.actor, request.params.deviation, request.body),
  })
}
