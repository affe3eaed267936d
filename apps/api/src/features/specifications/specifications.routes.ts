import { pageOf } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import { SpecificationSchema } from '@curebook/contract/specifications'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { SpecificationsService } from './specifications.service.ts'

const tags = ['Specifications']

/** HTTP edge of specifications, under /api/labs/:lab. */
export const specificationsRoutes: FastifyPluginAsyncZod<{ service: SpecificationsService }> = async (app, { service }) => {
  app.get('/specifications', {
    config: { action: 'specification:read' },
    schema: { operationId: 'listSpecifications', tags, params: labParams(), response: { 200: pageOf(SpecificationSchema), '4xx': ProblemSchema } },
    handler: (request) => service.list(request.actor),
  })
}
