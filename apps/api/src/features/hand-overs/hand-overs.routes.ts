import {
  HandOverSchema,
  LookUpHandOverSchema,
  OfferedHandOverSchema,
  OfferHandOverSchema,
  TakeHandOverSchema,
} from '@curebook/contract/hand-overs'
import { ProblemSchema } from '@curebook/contract/problem'
import { BulkOutcomeSchema } from '@curebook/contract/schedule'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { requiredIdempotencyKey } from '#platform/idempotency'
import { labParams } from '#platform/lab-params'
import { originOf } from '#platform/origin'
import type { HandOversService } from './hand-overs.service.ts'

const tags = ['Bench']
const problems = { '4xx': ProblemSchema }

/** HTTP edge of handing running work over, under /api/labs/:lab. Codes travel in bodies: addresses are logged, bodies are not. */
export const handOversRoutes: FastifyPluginAsyncZod<{ service: HandOversService }> = async (app, { service }) => {
  app.post('/hand-overs', {
    config: { action: 'hand-over:create' },
    schema: {
      operationId: 'offerHandOver',
      tags,
      params: labParams(),
      body: OfferHandOverSchema,
      response: { 200: OfferedHandOverSchema, 201: OfferedHandOverSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.offer(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/hand-overs/look-up', {
    config: { action: 'hand-over:take' },
    schema: {
      operationId: 'lookUpHandOver',
      tags,
      params: labParams(),
      body: LookUpHandOverSchema,
      response: { 200: HandOverSchema, ...problems },
    },
    handler: (request) => service.lookUp(request.actor, request.body.code, originOf(request)),
  })
  app.post('/hand-overs/take', {
    config: { action: 'hand-over:take' },
    schema: {
      operationId: 'takeHandOver',
      tags,
      params: labParams(),
      body: TakeHandOverSchema,
      response: { 200: BulkOutcomeSchema, ...problems },
    },
    handler: (request) => service.take(request.actor, request.body, originOf(request), requiredIdempotencyKey(request)),
  })
}
