import { IdSchema } from '@curebook/contract/common'
import { RevisionQuerySchema } from '@curebook/contract/designs'
import { ProblemSchema } from '@curebook/contract/problem'
import { AcknowledgeSchema, ReviewSchema, SendBackSchema, SignSchema } from '@curebook/contract/review'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ReviewService } from './review.service.ts'

/** HTTP edge of review and signing, under /api/labs/:lab. */
export const reviewRoutes: FastifyPluginAsyncZod<{ service: ReviewService }> = async (app, { service }) => {
  const params = labParams({ design: IdSchema })
  const response = { 200: ReviewSchema, '4xx': ProblemSchema } as const
  const tags = ['Review']
  app.get('/designs/:design/review', {
    config: { action: 'review:read' },
    schema: { operationId: 'readReview', tags, params, querystring: RevisionQuerySchema, response },
    handler: (request) => service.read(request.actor, request.params.design, request.query.revision),
  })
  app.post('/designs/:design/acknowledgements', {
    config: { action: 'review:acknowledge' },
    schema: { operationId: 'acknowledgePoint', tags, params, body: AcknowledgeSchema, response },
    handler: (request) => service.acknowledge(request.actor, request.params.design, request.body),
  })
  app.post('/designs/:design/check', {
    config: { action: 'revision:check' },
    schema: { operationId: 'checkRevision', tags, params, body: SignSchema, response },
    handler: (request) => service.check(request.actor, request.params.design, request.body, request.ip),
  })
  app.post('/designs/:design/approve', {
    config: { action: 'revision:approve' },
    schema: { operationId: 'approveRevision', tags, params, body: SignSchema, response },
    handler: (request) => service.approve(request.actor, request.params.design, request.body, request.ip),
  })
  app.post('/designs/:design/send-back', {
    config: { action: 'revision:send-back' },
    schema: { operationId: 'sendBackRevision', tags, params, body: SendBackSchema, response },
    handler: (request) => service.sendBack(request.actor, request.params.design, request.body),
  })
}
