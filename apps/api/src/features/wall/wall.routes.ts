import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  MadeWallCodeSchema,
  MakeWallCodeSchema,
  MakeWallScreenSchema,
  PairedWallSchema,
  PairWallSchema,
  WallSchema,
  WallScreenSchema,
} from '@curebook/contract/wall'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import { originOf } from '#platform/origin'
import type { WallScreensService } from './wall-screens.service.ts'
import type { WallService } from './wall.service.ts'

const tags = ['Wall screens']
const problems = { '4xx': ProblemSchema }

/** HTTP edge of the wall itself, under /api: no session; the browser's own cookie is all that it reads. */
export const wallRoutes: FastifyPluginAsyncZod<{ service: WallService }> = async (app, { service }) => {
  app.get('/wall', {
    config: { action: 'wall:read' },
    schema: { operationId: 'readWall', tags, response: { 200: WallSchema, ...problems } },
    handler: async (request, reply) => {
      const { wall, cookie } = await service.read(request.headers.cookie)
      if (cookie !== null) reply.header('set-cookie', cookie)
      return reply.header('x-robots-tag', 'noindex, nofollow').send(wall)
    },
  })
  app.post('/wall/pairing', {
    config: { action: 'wall:pair' },
    schema: {
      operationId: 'pairWall',
      tags,
      body: PairWallSchema,
      response: { 200: PairedWallSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { name, cookie } = await service.pair(request.body.code, originOf(request))
      return reply.header('set-cookie', cookie).send({ name })
    },
  })
}

/** HTTP edge of a laboratory's wall screens, under /api/labs/:lab. */
export const wallScreensRoutes: FastifyPluginAsyncZod<{ service: WallScreensService }> = async (app, { service }) => {
  app.get('/wall-screens', {
    config: { action: 'wall-screen:read' },
    schema: {
      operationId: 'listWallScreens',
      tags,
      params: labParams(),
      response: { 200: z.array(WallScreenSchema), ...problems },
    },
    handler: (request) => service.list(request.actor),
  })
  app.post('/wall-screens', {
    config: { action: 'wall-screen:create' },
    schema: {
      operationId: 'makeWallScreen',
      tags,
      params: labParams(),
      body: MakeWallScreenSchema,
      response: { 200: MadeWallCodeSchema, 201: MadeWallCodeSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.make(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/wall-screens/:screen/codes', {
    config: { action: 'wall-screen:create' },
    schema: {
      operationId: 'makeWallCode',
      tags,
      params: labParams({ screen: IdSchema }),
      body: MakeWallCodeSchema,
      response: { 200: MadeWallCodeSchema, 201: MadeWallCodeSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.makeCode(request.actor, request.params.screen, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/wall-screens/:screen/end', {
    config: { action: 'wall-screen:end' },
    schema: {
      operationId: 'endWallScreen',
      tags,
      params: labParams({ screen: IdSchema }),
      response: { 200: WallScreenSchema, ...problems },
    },
    handler: (request) => service.end(request.actor, request.params.screen),
  })
}
