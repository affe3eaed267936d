import { MailStateSchema, MailWishesSchema } from '@curebook/contract/mail'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { MailService } from './mail.service.ts'

const tags = ['Mail']
const problems = { '4xx': ProblemSchema }

/** HTTP edge of mail, under /api/labs/:lab. */
export const mailRoutes: FastifyPluginAsyncZod<{ service: MailService }> = async (app, { service }) => {
  app.get('/mail', {
    config: { action: 'mail:read' },
    schema: {
      operationId: 'readMailState',
      tags,
      params: labParams(),
      response: { 200: MailStateSchema, ...problems },
    },
    handler: (request) => service.state(request.actor),
  })
  app.get('/mail/wishes', {
    config: { action: 'mail-wish:read-own' },
    schema: {
      operationId: 'readMailWishes',
      tags,
      params: labParams(),
      response: { 200: MailWishesSchema, ...problems },
    },
    handler: (request) => service.wishes(request.actor),
  })
  app.put('/mail/wishes', {
    config: { action: 'mail-wish:set-own' },
    schema: {
      operationId: 'setMailWishes',
      tags,
      params: labParams(),
      body: MailWishesSchema,
      response: { 200: MailWishesSchema, ...problems },
    },
    handler: (request) => service.setWishes(request.actor, request.body),
  })
}
