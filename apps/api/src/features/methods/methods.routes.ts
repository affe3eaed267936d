import { pageOf } from '@curebook/contract/common'
import { CreateEditionSchema, EditionSchema, MethodExampleSchema, MethodSchema } from '@curebook/contract/methods'
import { ProblemSchema } from '@curebook/contract/problem'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import type { MethodsService } from './methods.service.ts'

const tags = ['Methods']
const params = labParams({ method: z.string().max(100) })

/** HTTP edge of test methods and their editions, under /api/labs/:lab. */
export const methodsRoutes: FastifyPluginAsyncZod<{ service: MethodsService }> = async (app, { service }) => {
  app.get('/methods', {
    config: { action: 'method:read' },
    schema: {
      operationId: 'listMethods',
      tags,
      params: labParams(),
      response: { 200: pageOf(MethodSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor),
  })

  app.get('/methods/:method', {
    config: { action: 'method:read' },
    schema: { operationId: 'readMethod', tags, params, response: { 200: MethodSchema, '4xx': ProblemSchema } },
    handler: (request) => service.read(request.actor, request.params.method),
  })

  app.get('/methods/:method/example', {
    config: { action: 'method:read' },
    schema: {
      operationId: 'readMethodExample',
      tags,
      params,
      response: { 200: MethodExampleSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.example(request.params.method),
  })

  app.post('/methods/:method/editions', {
    config: { action: 'method:edit' },
    schema: {
      operationId: 'createEdition',
      tags,
      params,
      body: CreateEditionSchema,
      response: { 200: EditionSchema, 201: EditionSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.createEdition(request.actor, request.params.method, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
