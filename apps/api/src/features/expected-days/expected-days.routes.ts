import { IdSchema } from '@curebook/contract/common'
import { ExpectedDaySchema, ExpectedDaysSchema, SetExpectedDaySchema } from '@curebook/contract/expected-days'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ExpectedDaysService } from './expected-days.service.ts'

const tags = ['Projects']

/** HTTP edge of expected days, under /api/labs/:lab. A client reads them in their progress. */
export const expectedDaysRoutes: FastifyPluginAsyncZod<{ service: ExpectedDaysService }> = async (app, { service }) => {
  const params = labParams({ project: IdSchema })
  app.get('/projects/:project/expected-days', {
    config: { action: 'project:read' },
    schema: {
      operationId: 'listExpectedDays',
      tags,
      params,
      response: { 200: ExpectedDaysSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.params.project),
  })
  app.post('/projects/:project/expected-days', {
    config: { action: 'project:expect' },
    schema: {
      operationId: 'setExpectedDay',
      tags,
      params,
      body: SetExpectedDaySchema,
      response: { 200: ExpectedDaySchema, 201: ExpectedDaySchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.set(request.actor, request.params.project, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
