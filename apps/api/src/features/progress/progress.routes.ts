import { ProblemSchema } from '@curebook/contract/problem'
import { ClientProjectsSchema } from '@curebook/contract/reports'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ProgressService } from './progress.service.ts'

/** HTTP edge of a client's progress, under /api/labs/:lab. */
export const progressRoutes: FastifyPluginAsyncZod<{ service: ProgressService }> = async (app, { service }) => {
  app.get('/progress', {
    config: { action: 'progress:read' },
    schema: {
      operationId: 'readProgress',
      tags: ['Progress'],
      params: labParams(),
      response: { 200: ClientProjectsSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.read(request.actor),
  })
}
