import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import { CutOffSchema, SignedInDeviceSchema } from '@curebook/contract/signed-in'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import type { SignedInService } from './signed-in.service.ts'

const problems = { '4xx': ProblemSchema }
const tags = ['People']

/** HTTP edge of where people are signed in, under /api/labs/:lab. */
export const signedInRoutes: FastifyPluginAsyncZod<{ service: SignedInService }> = async (app, { service }) => {
  app.get('/signed-in', {
    config: { action: 'signed-in:read' },
    schema: {
      operationId: 'listSignedIn',
      tags,
      params: labParams(),
      response: { 200: z.array(SignedInDeviceSchema), ...problems },
    },
    handler: (request) => service.list(request.actor),
  })
  app.post('/signed-in/:session/end', {
    config: { action: 'signed-in:end' },
    schema: {
      operationId: 'cutOffDevice',
      tags,
      params: labParams({ session: IdSchema }),
      body: CutOffSchema,
      response: { 204: z.null(), ...problems },
    },
    handler: async (request, reply) => {
      await service.cutOff(request.actor, request.params.session, request.body)
      return reply.code(204).send(null)
    },
  })
}
