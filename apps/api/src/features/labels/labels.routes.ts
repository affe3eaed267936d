import { IdSchema } from '@curebook/contract/common'
import { LabelSchema, PrintLabelsSchema } from '@curebook/contract/labels'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { requiredIdempotencyKey } from '#platform/idempotency'
import { labParams } from '#platform/lab-params'
import type { LabelsService } from './labels.service.ts'

const tags = ['Labels']
const params = labParams({ item: IdSchema })

/** HTTP edge of labels for containers, under /api/labs/:lab. */
export const labelsRoutes: FastifyPluginAsyncZod<{ service: LabelsService }> = async (app, { service }) => {
  app.get('/items/:item/label', {
    config: { action: 'material:read' },
    schema: { operationId: 'readLabel', tags, params, response: { 200: LabelSchema, '4xx': ProblemSchema } },
    handler: (request) => service.read(request.actor, request.params.item),
  })

  app.post('/items/:item/label-prints', {
    config: { action: 'label:print' },
    schema: {
      operationId: 'printLabels',
      tags,
      params,
      body: PrintLabelsSchema,
      response: { 200: LabelSchema, '4xx': ProblemSchema },
    },
    handler: (request) =>
      service.print(request.actor, request.params.item, request.body, requiredIdempotencyKey(request)),
  })
}
