import { IdSchema } from '@curebook/contract/common'
import { DesignObservationsSchema, ObservationSchema, PostObservationSchema } from '@curebook/contract/observations'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ObservationsService } from './observations.service.ts'

/** HTTP edge of what is seen at the bench, under /api/labs/:lab. */
export const observationsRoutes: FastifyPluginAsyncZod<{ service: ObservationsService }> = async (app, { service }) => {
  app.get('/designs/:design/observations', {
    config: { action: 'bench:read' },
    schema: {
      operationId: 'listDesignObservations',
      tags: ['Bench'],
      params: labParams({ design: IdSchema }),
      response: { 200: DesignObservationsSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.ofDesign(request.actor, request.params.design),
  })

  app.post('/tests/:test/observations', {
    config: { action: 'observation:create' },
    schema: {
      operationId: 'postObservation',
      tags: ['Bench'],
      params: labParams({ test: IdSchema }),
      body: PostObservationSchema,
      response: { 200: ObservationSchema, 201: ObservationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.post(request.actor, request.params.test, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
