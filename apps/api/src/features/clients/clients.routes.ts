import { pageOf } from '@curebook/contract/common'
import { ClientSchema, CreateClientSchema } from '@curebook/contract/projects'
import { ProblemSchema } from '@curebook/contract/problem'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { ClientsService } from './clients.service.ts'

/** HTTP edge of clients, under /api/labs/:lab. */
export const clientsRoutes: FastifyPluginAsyncZod<{ service: ClientsService }> = async (app, { service }) => {
  app.get('/clients', {
    config: { action: 'client:read' },
    schema: {
      operationId: 'listClients',
      tags: ['Clients'],
      params: labParams(),
      response: { 200: pageOf(ClientSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor),
  })

  app.post('/clients', {
    config: { action: 'client:create' },
    schema: {
      operationId: 'createClient',
      tags: ['Clients'],
      params: labParams(),
      body: CreateClientSchema,
      response: { 200: ClientSchema, 201: ClientSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.create(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
