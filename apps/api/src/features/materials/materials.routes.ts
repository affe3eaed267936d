import { pageOf } from '@curebook/contract/common'
import { CreateMaterialSchema, MaterialSchema, MaterialsQuerySchema } from '@curebook/contract/materials'
import { ProblemSchema } from '@curebook/contract/problem'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { MaterialsService } from './materials.service.ts'

const tags = ['Materials']

/** HTTP edge of samples as received, under /api/labs/:lab. */
export const materialsRoutes: FastifyPluginAsyncZod<{ service: MaterialsService }> = async (app, { service }) => {
  app.get('/materials', {
    config: { action: 'material:read' },
    schema: {
      operationId: 'listMaterials',
      tags,
      params: labParams(),
      querystring: MaterialsQuerySchema,
      response: { 200: pageOf(MaterialSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.query),
  })

  app.post('/materials', {
    config: { action: 'material:create' },
    schema: {
      operationId: 'createMaterial',
      tags,
      params: labParams(),
      body: CreateMaterialSchema,
      response: { 200: MaterialSchema, 201: MaterialSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.create(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
