import { IdSchema } from '@curebook/contract/common'
import { RevisionQuerySchema } from '@curebook/contract/designs'
import { PanelTestsSchema } from '@curebook/contract/panel-tests'
import { ProblemSchema } from '@curebook/contract/problem'
import { ReplicatesSchema } from '@curebook/contract/replicates'
import { AskWhatIfSchema, RangeViewSchema, WhatIfSchema } from '@curebook/contract/range'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { PanelTestsService } from './panel-tests.service.ts'
import type { RangeService } from './range.service.ts'
import type { ReplicatesService } from './replicates.service.ts'

/** HTTP edge of the acceptable range, under /api/labs/:lab. */
export const rangeRoutes: FastifyPluginAsyncZod<{
  service: RangeService
  panelTests: PanelTestsService
  replicates: ReplicatesService
}> = async (app, { service, panelTests, replicates }) => {
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

  app.get('/designs/:design/panel-tests', {
    config: { action: 'range:read' },
    schema: {
      operationId: 'readPanelTests',
      tags: ['Range'],
      params: labParams({ design: IdSchema }),
      querystring: RevisionQuerySchema,
      response: { 200: PanelTestsSchema, '4xx': ProblemSchema },
    },
    handler: (request) => panelTests.read(request.actor, request.params.design, request.query.revision),
  })

  app.get('/designs/:design/replicates', {
    config: { action: 'range:read' },
    schema: {
      operationId: 'readReplicates',
      tags: ['Range'],
      params: labParams({ design: IdSchema }),
      querystring: RevisionQuerySchema,
      response: { 200: ReplicatesSchema, '4xx': ProblemSchema },
    },
    handler: (request) => replicates.read(request.actor, request.params.design, request.query.revision),
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
