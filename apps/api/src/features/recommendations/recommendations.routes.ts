import { IdSchema } from '@curebook/contract/common'
import { RevisionQuerySchema } from '@curebook/contract/designs'
import { ProblemSchema } from '@curebook/contract/problem'
import { RecommendationSchema, RecommendSchema } from '@curebook/contract/recommendations'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import type { RecommendationsService } from './recommendations.service.ts'

/** HTTP edge of recommendations, under /api/labs/:lab. */
export const recommendationsRoutes: FastifyPluginAsyncZod<{ service: RecommendationsService }> = async (
  app,
  { service },
) => {
  const params = labParams({ design: IdSchema })
  app.get('/designs/:design/recommendation', {
    config: { action: 'recommendation:read' },
    schema: {
      operationId: 'readRecommendation',
      tags: ['Range'],
      params,
      querystring: RevisionQuerySchema,
      response: { 200: z.object({ recommendation: RecommendationSchema.nullable() }), '4xx': ProblemSchema },
    },
    handler: (request) => service.read(request.actor, request.params.design, request.query.revision),
  })
  app.post('/designs/:design/recommendations', {
    config: { action: 'recommendation:create' },
    schema: {
      operationId: 'recommendContent',
      tags: ['Range'],
      params,
      body: RecommendSchema,
      response: { 200: RecommendationSchema, 201: RecommendationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.recommend(request.actor, request.params.design, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
