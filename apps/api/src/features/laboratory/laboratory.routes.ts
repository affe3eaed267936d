import { LaboratorySchema, UpdateLaboratorySchema } from '@curebook/contract/laboratory'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { etagOf, ifMatch } from '#platform/etag'
import { labParams } from '#platform/lab-params'
import type { LaboratoryService } from './laboratory.service.ts'

/** HTTP edge of a laboratory's settings. */
export const laboratoryRoutes: FastifyPluginAsyncZod<{ service: LaboratoryService }> = async (app, { service }) => {
  const response = { 200: LaboratorySchema, '4xx': ProblemSchema }

  app.get('/', {
    config: { action: 'laboratory:read' },
    schema: { operationId: 'readLaboratory', tags: ['Laboratory'], params: labParams(), response },
    handler: async (request, reply) => {
      const view = await service.read(request.actor)
      return reply.header('etag', etagOf(view.version)).send(view)
    },
  })

  app.patch('/', {
    config: { action: 'laboratory:update' },
    schema: {
      operationId: 'updateLaboratory',
      tags: ['Laboratory'],
      params: labParams(),
      body: UpdateLaboratorySchema,
      response,
    },
    handler: async (request, reply) => {
      const view = await service.update(request.actor, ifMatch(request), request.body)
      return reply.header('etag', etagOf(view.version)).send(view)
    },
  })
}
