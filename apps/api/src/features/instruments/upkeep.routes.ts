import { IdSchema } from '@curebook/contract/common'
import { AddCheckSchema, InstrumentCheckSchema, InstrumentChecksSchema } from '@curebook/contract/instrument-checks'
import {
  InstrumentLineSchema,
  InstrumentLinesSchema,
  SetInstrumentLineSchema,
} from '@curebook/contract/instrument-lines'
import { FitPartSchema, PartFittingSchema, PartFittingsSchema } from '@curebook/contract/parts'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { InstrumentChecksService } from './instrument-checks.service.ts'
import type { InstrumentLinesService } from './instrument-lines.service.ts'
import type { PartFittingsService } from './part-fittings.service.ts'

const tags = ['Instruments']
const params = labParams({ instrument: IdSchema })

/** HTTP edge of what is done at machines between calibrations, under /api/labs/:lab. */
export const upkeepRoutes: FastifyPluginAsyncZod<{
  parts: PartFittingsService
  checks: InstrumentChecksService
  lines: InstrumentLinesService
}> = async (app, { parts, checks, lines }) => {
  app.get('/instruments/:instrument/parts', {
    config: { action: 'instrument:read' },
    schema: {
      operationId: 'listParts',
      tags,
      params,
      response: { 200: PartFittingsSchema, '4xx': ProblemSchema },
    },
    handler: (request) => parts.list(request.actor, request.params.instrument),
  })

  app.post('/instruments/:instrument/parts', {
    config: { action: 'instrument:fit-part' },
    schema: {
      operationId: 'fitPart',
      tags,
      params,
      body: FitPartSchema,
      response: { 200: PartFittingSchema, 201: PartFittingSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await parts.fit(request.actor, request.params.instrument, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.get('/instruments/:instrument/checks', {
    config: { action: 'instrument:read' },
    schema: {
      operationId: 'listInstrumentChecks',
      tags,
      params,
      response: { 200: InstrumentChecksSchema, '4xx': ProblemSchema },
    },
    handler: (request) => checks.list(request.actor, request.params.instrument),
  })

  app.post('/instruments/:instrument/checks', {
    config: { action: 'instrument:check' },
    schema: {
      operationId: 'addInstrumentCheck',
      tags,
      params,
      body: AddCheckSchema,
      response: { 200: InstrumentCheckSchema, 201: InstrumentCheckSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await checks.add(request.actor, request.params.instrument, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.get('/instruments/:instrument/lines', {
    config: { action: 'instrument:read' },
    schema: {
      operationId: 'listInstrumentLines',
      tags,
      params,
      response: { 200: InstrumentLinesSchema, '4xx': ProblemSchema },
    },
    handler: (request) => lines.list(request.actor, request.params.instrument),
  })

  app.post('/instruments/:instrument/lines', {
    config: { action: 'instrument:set-line' },
    schema: {
      operationId: 'setInstrumentLine',
      tags,
      params,
      body: SetInstrumentLineSchema,
      response: { 200: InstrumentLineSchema, 201: InstrumentLineSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await lines.set(request.actor, request.params.instrument, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
