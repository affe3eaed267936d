import { IdSchema } from '@curebook/contract/common'
import {
  ConditionLogSchema,
  CorrectConditionSchema,
  MadeKeySchema,
  MakeKeySchema,
  PostConditionsSchema,
  PostedConditionsSchema,
} from '@curebook/contract/conditions'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ConditionsService } from './conditions.service.ts'

const tags = ['Conditions']
const params = labParams({ instrument: IdSchema })
const problems = { '4xx': ProblemSchema }

/** HTTP edge of condition logs, under /api/labs/:lab. */
export const conditionsRoutes: FastifyPluginAsyncZod<{ service: ConditionsService }> = async (app, { service }) => {
  app.get('/instruments/:instrument/conditions', {
    config: { action: 'condition:read' },
    schema: { operationId: 'readConditionLog', tags, params, response: { 200: ConditionLogSchema, ...problems } },
    handler: (request) => service.log(request.actor, request.params.instrument),
  })
  app.post('/instruments/:instrument/conditions', {
    config: { action: 'condition:create' },
    schema: {
      operationId: 'addConditions',
      tags,
      params,
      body: PostConditionsSchema,
      response: { 200: PostedConditionsSchema, ...problems },
    },
    handler: (request) => service.add(request.actor, request.params.instrument, request.body),
  })
  app.post('/instruments/:instrument/conditions/:value/corrections', {
    config: { action: 'condition:create' },
    schema: {
      operationId: 'correctCondition',
      tags,
      params: labParams({ instrument: IdSchema, value: IdSchema }),
      body: CorrectConditionSchema,
      response: { 200: PostedConditionsSchema, ...problems },
    },
    handler: (request) => service.correct(request.actor, request.params.instrument, request.params.value, request.body),
  })
  app.post('/instruments/:instrument/keys', {
    config: { action: 'instrument:update' },
    schema: {
      operationId: 'makeInstrumentKey',
      tags,
      params,
      body: MakeKeySchema,
      response: { 200: MadeKeySchema, 201: MadeKeySchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.makeKey(request.actor, request.params.instrument, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}

/** HTTP edge for loggers, under /api: no session; the key travels in the header `x-instrument-key` and names the instrument. */
export const conditionPostRoutes: FastifyPluginAsyncZod<{ service: ConditionsService }> = async (app, { service }) => {
  app.post('/conditions', {
    config: { action: 'condition:post' },
    schema: {
      operationId: 'postConditions',
      tags,
      body: PostConditionsSchema,
      response: { 200: PostedConditionsSchema, ...problems },
    },
    handler: (request) => {
      const key = request.headers['x-instrument-key']
      return service.post(typeof key === 'string' ? key : undefined, request.body)
    },
  })
}
