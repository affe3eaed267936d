import {
  AuthorisationSchema,
  AuthorisationsSchema,
  CorrectAuthorisationSchema,
  GrantSchema,
} from '@curebook/contract/authorisations'
import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { AuthorisationsService } from './authorisations.service.ts'

const tags = ['People']
const problems = { '4xx': ProblemSchema }

/** HTTP edge of authorisations, under /api/labs/:lab. */
export const authorisationsRoutes: FastifyPluginAsyncZod<{ service: AuthorisationsService }> = async (
  app,
  { service },
) => {
  app.get('/authorisations', {
    config: { action: 'authorisation:read' },
    schema: {
      operationId: 'listAuthorisations',
      tags,
      params: labParams(),
      response: { 200: AuthorisationsSchema, ...problems },
    },
    handler: (request) => service.list(request.actor),
  })

  app.post('/authorisations', {
    config: { action: 'authorisation:create' },
    schema: {
      operationId: 'grantAuthorisation',
      tags,
      params: labParams(),
      body: GrantSchema,
      response: { 200: AuthorisationSchema, 201: AuthorisationSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.grant(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/authorisations/:authorisation/corrections', {
    config: { action: 'authorisation:correct' },
    schema: {
      operationId: 'correctAuthorisation',
      tags,
      params: labParams({ authorisation: IdSchema }),
      body: CorrectAuthorisationSchema,
      response: { 200: AuthorisationSchema, 201: AuthorisationSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.correct(request.actor, request.params.authorisation, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
