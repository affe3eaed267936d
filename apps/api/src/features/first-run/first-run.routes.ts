import { FirstRunDoneSchema, FirstRunSchema, FirstRunStateSchema } from '@curebook/contract/first-run'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { originOf } from '#platform/origin'
import type { FirstRunService } from './first-run.service.ts'

/** HTTP edge of the first run, under /api. */
export const firstRunRoutes: FastifyPluginAsyncZod<{ service: FirstRunService }> = async (app, { service }) => {
  app.get('/first-run', {
    config: { action: 'first-run:read' },
    schema: { operationId: 'readFirstRun', tags: ['First run'], response: { 200: FirstRunStateSchema } },
    handler: async () => ({ needed: await service.needed() }),
  })

  app.post('/first-run', {
    config: { action: 'first-run:create' },
    schema: {
      operationId: 'firstRun',
      tags: ['First run'],
      body: FirstRunSchema,
      response: { 201: FirstRunDoneSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => reply.code(201).send(await service.run(request.body, originOf(request))),
  })
}
