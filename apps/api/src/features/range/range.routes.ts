import { IdSchema } from '@curebook/contract/common'
import { RevisionQuerySchema } from '@curebook/contract/designs'
import { ProblemSchema } from '@curebook/contract/problem'
import { AskWhatIfSchema, RangeViewSchema, WhatIfSchema } from '@curebook/contract/range'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { RangeService } from './range.service.ts'

/** HTTP edge of the acceptable range, under /api/labs/:lab. */
export const rangeRoutes: FastifyPluginAsyncZod<{ service: RangeService }> = async (app, { service }) => {
  app.get('/designs/:design/range', {
    config: { action: 'range:read' },
    schema: {
      operationId: 'readRange',
      tags: ['Range'],
      params: labParams({ design: IdSchema }),
      querystring: RevisionQuerySchema,
      response: { 200: RangeViewSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.read(request.actor, request.params.design, request.query.revision),
  })

  // A question with a body: nothing is written, so whoever may read the range may ask.
  app.post('/designs/:design/what-if', {
    config: { action: 'range:read' },
    schema: {
      operationId: 'askWhatIf',
      tags: ['Range'],
      params: labParams({ design: IdSchema }),
      querystring: RevisionQuerySchema,
      body: AskWhatIfSchema,
      response: { 200: WhatIfSchema, '4xx': ProblemSchema },
    },
    handler: ({ actor, params, query, body }) => service.whatIf(actor, params.design, body.without, query.revision),
  })
}
