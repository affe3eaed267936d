import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  ChangePasswordSchema,
  ConfirmPasswordSchema,
  DeviceSessionSchema,
  SecondFactorSchema,
  SecondFactorSetupSchema,
  SessionSchema,
  SignInSchema,
} from '@curebook/contract/session'
import type { FastifyReply } from 'fastify'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { originOf } from '#platform/origin'
import { AppError } from '#platform/problem'
import type { SessionService } from './session.service.ts'

const NothingSchema = z.null()

/** HTTP edge of signing in and of one's own account. */
export const sessionRoutes: FastifyPluginAsyncZod<{ service: SessionService; cookieName: string }> = async (
  app,
  { service, cookieName },
) => {
  const tags = ['Session']
  const problems = { '4xx': ProblemSchema }

  app.post('/session', {
    config: { action: 'session:create' },
    schema: { operationId: 'signIn', tags, body: SignInSchema, response: { 200: SessionSchema, ...problems } },
    handler: async (request, reply) => {
      const { cookies, session } = await service.signIn(request.body, originOf(request))
      reply.header('set-cookie', cookies)
      if (!session)
        throw new AppError('second-factor-needed', 'The password is right. Enter the code of your authenticator.')
      return session
    },
  })

  app.post('/session/second-factor', {
    config: { action: 'session:create' },
    schema: {
      operationId: 'signInSecondFactor',
      tags,
      body: SecondFactorSchema,
      response: { 200: SessionSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { cookies, session } = await service.signInSecond(request.body.code, originOf(request))
      reply.header('set-cookie', cookies)
      return session
    },
  })

  app.get('/session', {
    config: { action: 'session:read' },
    schema: { operationId: 'readSession', tags, response: { 200: SessionSchema, ...problems } },
    handler: (request) => service.read(request.signedIn),
  })

  app.delete('/session', {
    config: { action: 'session:end' },
    schema: { operationId: 'signOut', tags, response: { 204: NothingSchema, ...problems } },
    handler: async (request, reply) => {
      await service.signOut(request.signedIn, originOf(request))
      return forget(reply, cookieName)
    },
  })

  app.post('/session/sign-out-everywhere', {
    config: { action: 'session:end' },
    schema: { operationId: 'signOutEverywhere', tags, response: { 204: NothingSchema, ...problems } },
    handler: async (request, reply) => {
      await service.signOutEverywhere(request.signedIn)
      return forget(reply, cookieName)
    },
  })

  app.get('/account/sessions', {
    config: { action: 'account:read' },
    schema: { operationId: 'listDevices', tags, response: { 200: z.array(DeviceSessionSchema), ...problems } },
    handler: (request) => service.devices(request.signedIn),
  })

  app.delete('/account/sessions/:session', {
    config: { action: 'account:update' },
    schema: {
      operationId: 'endDevice',
      tags,
      params: z.object({ session: IdSchema }),
      response: { 204: NothingSchema, ...problems },
    },
    handler: async (request, reply) => {
      await service.endDevice(request.signedIn, request.params.session)
      return reply.code(204).send(null)
    },
  })

  app.post('/account/password', {
    config: { action: 'account:update' },
    schema: {
      operationId: 'changePassword',
      tags,
      body: ChangePasswordSchema,
      response: { 204: NothingSchema, ...problems },
    },
    handler: async (request, reply) => {
      await service.changePassword(request.signedIn, request.body, originOf(request))
      return reply.code(204).send(null)
    },
  })

  app.post('/account/second-factor', {
    config: { action: 'account:update' },
    schema: {
      operationId: 'beginSecondFactor',
      tags,
      body: ConfirmPasswordSchema,
      response: { 200: SecondFactorSetupSchema, ...problems },
    },
    handler: (request) => service.beginSecondFactor(request.signedIn, request.body.password, originOf(request)),
  })

  app.post('/account/second-factor/confirm', {
    config: { action: 'account:update' },
    schema: {
      operationId: 'confirmSecondFactor',
      tags,
      body: SecondFactorSchema,
      response: { 204: NothingSchema, ...problems },
    },
    handler: async (request, reply) => {
      reply.header(
        'set-cookie',
        await service.confirmSecondFactor(request.signedIn, request.body.code, originOf(request)),
      )
      return reply.code(204).send(null)
    },
  })

  app.post('/account/second-factor/end', {
    config: { action: 'account:update' },
    schema: {
      operationId: 'endSecondFactor',
      tags,
      body: ConfirmPasswordSchema,
      response: { 204: NothingSchema, ...problems },
    },
    handler: async (request, reply) => {
      reply.header(
        'set-cookie',
        await service.endSecondFactor(request.signedIn, request.body.password, originOf(request)),
      )
      return reply.code(204).send(null)
    },
  })
}

function forget(reply: FastifyReply, cookieName: string) {
  return reply
    .header(
      'set-cookie',
      `${cookieName}=; Max-Age=0; Path=/; HttpOnly; SameSite=Lax${cookieName.startsWith('__Secure-') ? '; Secure' : ''}`,
    )
    .code(204)
    .send(null)
}
