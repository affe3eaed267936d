import { IdSchema } from '@curebook/contract/common'
import {
  LoadMovedSchema,
  LoadSchema,
  OpenLoadSchema,
  OvensSchema,
  PutInSchema,
  ReadLoadSchema,
  TakeOutSchema,
} from '@curebook/contract/loads'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { LoadsService } from './loads.service.ts'

const tags = ['Loads']
const params = labParams({ load: IdSchema })
const problems = { '4xx': ProblemSchema }

/** HTTP edge of loads of ovens and baths, under /api/labs/:lab. */
export const loadsRoutes: FastifyPluginAsyncZod<{ service: LoadsService }> = async (app, { service }) => {
  app.get('/loads', {
    config: { action: 'load:read' },
    schema: { operationId: 'listLoads', tags, params: labParams(), response: { 200: OvensSchema, ...problems } },
    handler: (request) => service.list(request.actor),
  })
  app.get('/loads/:load', {
    config: { action: 'load:read' },
    schema: { operationId: 'readLoad', tags, params, response: { 200: LoadSchema, ...problems } },
    handler: (request) => service.read(request.actor, request.params.load),
  })
  app.post('/loads', {
    config: { action: 'load:create' },
    schema: {
      operationId: 'openLoad',
      tags,
      params: labParams(),
      body: OpenLoadSchema,
      response: { 200: LoadSchema, 201: LoadSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.open(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/loads/:load/in', {
    config: { action: 'load:update' },
    schema: {
      operationId: 'putIntoLoad',
      tags,
      params,
      body: PutInSchema,
      response: { 200: LoadMovedSchema, ...problems },
    },
    handler: (request) => service.putIn(request.actor, request.params.load, request.body),
  })
  app.post('/loads/:load/out', {
    config: { action: 'load:update' },
    schema: {
      operationId: 'takeOutOfLoad',
      tags,
      params,
      body: TakeOutSchema,
      response: { 200: LoadMovedSchema, ...problems },
    },
    handler: (request) => service.takeOut(request.actor, request.params.load, request.body),
  })
  app.post('/loads/:load/readings', {
    config: { action: 'load:update' },
    schema: {
      operationId: 'keepLoadReading',
      tags,
      params,
      body: ReadLoadSchema,
      response: { 200: LoadSchema, 201: LoadSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.keep(request.actor, request.params.load, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
