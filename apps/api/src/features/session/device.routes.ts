import {
  DevicePeopleSchema,
  PinStateSchema,
  SetPinSchema,
  SwitchPersonSchema,
  UnlockSchema,
} from '@curebook/contract/device'
import { ProblemSchema } from '@curebook/contract/problem'
import { ConfirmPasswordSchema } from '@curebook/contract/session'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import { originOf } from '#platform/origin'
import type { DeviceService } from './device.service.ts'

const NothingSchema = z.null()
const problems = { '4xx': ProblemSchema }
const tags = ['Session']

/** HTTP edge of a shared device inside a laboratory, under /api/labs/:lab. */
export const deviceRoutes: FastifyPluginAsyncZod<{ service: DeviceService }> = async (app, { service }) => {
  app.get('/device/people', {
    config: { action: 'device:switch' },
    schema: {
      operationId: 'listDevicePeople',
      tags,
      params: labParams(),
      response: { 200: DevicePeopleSchema, ...problems },
    },
    handler: (request) => service.people(request.actor, originOf(request)),
  })
  app.post('/device/switch', {
    config: { action: 'device:switch' },
    schema: {
      operationId: 'switchPerson',
      tags,
      params: labParams(),
      body: SwitchPersonSchema,
      response: { 204: NothingSchema, ...problems },
    },
    handler: async (request, reply) => {
      reply.header('set-cookie', await service.switchTo(request.actor, request.body, originOf(request)))
      return reply.code(204).send(null)
    },
  })
}

/** HTTP edge of the PIN of one's own account, under /api. */
export const pinRoutes: FastifyPluginAsyncZod<{ service: DeviceService }> = async (app, { service }) => {
  app.post('/session/unlock', {
    config: { action: 'session:read' },
    schema: { operationId: 'unlockScreen', tags, body: UnlockSchema, response: { 204: NothingSchema, ...problems } },
    handler: async (request, reply) => {
      await service.unlock(request.signedIn, request.body, originOf(request))
      return reply.code(204).send(null)
    },
  })
  app.get('/account/pin', {
    config: { action: 'account:read' },
    schema: { operationId: 'readPin', tags, response: { 200: PinStateSchema, ...problems } },
    handler: (request) => service.pinState(request.signedIn),
  })
  app.post('/account/pin', {
    config: { action: 'account:update' },
    schema: { operationId: 'setPin', tags, body: SetPinSchema, response: { 204: NothingSchema, ...problems } },
    handler: async (request, reply) => {
      await service.setPin(request.signedIn, request.body, originOf(request))
      return reply.code(204).send(null)
    },
  })
  app.post('/account/pin/end', {
    config: { action: 'account:update' },
    schema: { operationId: 'endPin', tags, body: ConfirmPasswordSchema, response: { 204: NothingSchema, ...problems } },
    handler: async (request, reply) => {
      await service.endPin(request.signedIn, request.body.password, originOf(request))
      return reply.code(204).send(null)
    },
  })
}
