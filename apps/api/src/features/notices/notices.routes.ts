import { IdSchema } from '@curebook/contract/common'
import { NoticesSchema } from '@curebook/contract/notices'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { NoticesService } from './notices.service.ts'

const tags = ['Schedule']

/** HTTP edge of what people are told, under /api/labs/:lab. */
export const noticesRoutes: FastifyPluginAsyncZod<{ service: NoticesService }> = async (app, { service }) => {
  app.get('/notices', {
    config: { action: 'notice:read-own' },
    schema: {
      operationId: 'listMyNotices',
      tags,
      params: labParams(),
      response: { 200: NoticesSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.unseen(request.actor),
  })

  // Needs no key: a notice is seen once, however often it is said.
  app.post('/notices/:notice/seen', {
    config: { action: 'notice:see' },
    schema: {
      operationId: 'seeNotice',
      tags,
      params: labParams({ notice: IdSchema }),
      response: { 200: NoticesSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.see(request.actor, request.params.notice),
  })
}
