import { pageOf } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  AdoptSpecificationSchema,
  BuiltInSpecificationSchema,
  SpecificationSchema,
} from '@curebook/contract/specifications'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { SpecificationsService } from './specifications.service.ts'

const tags = ['Specifications']

/** HTTP edge of specifications, under /api/labs/:lab. */
export const specificationsRoutes: FastifyPluginAsyncZod<{ service: SpecificationsService }> = async (
  app,
  { service },
) => {
  app.get('/specifications', {
    config: { action: 'specification:read' },
    schema: {
      operationId: 'listSpecifications',
      tags,
      params: labParams(),
      response: { 200: pageOf(SpecificationSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor),
  })

  app.get('/specifications/built-in', {
    config: { action: 'specification:read' },
    schema: {
      operationId: 'listBuiltInSpecifications',
      tags,
      params: labParams(),
      response: { 200: pageOf(BuiltInSpecificationSchema), '4xx': ProblemSchema },
    },
    handler: () => service.builtIn(),
  })

  app.post('/specifications', {
    config: { action: 'specification:adopt' },
    schema: {
      operationId: 'adoptSpecification',
      tags,
      params: labParams(),
      body: AdoptSpecificationSchema,
      response: { 200: SpecificationSchema, 201: SpecificationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.adopt(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
