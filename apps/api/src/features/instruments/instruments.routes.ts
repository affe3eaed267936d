import { IdSchema, pageOf } from '@curebook/contract/common'
import {
  AddCalibrationSchema,
  AddFactorSchema,
  CalibrationSchema,
  CreateInstrumentSchema,
  InstrumentFactorSchema,
  InstrumentSchema,
  UpdateInstrumentSchema,
} from '@curebook/contract/instruments'
import { ProblemSchema } from '@curebook/contract/problem'
import { etagOf, ifMatch } from '#platform/etag'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { InstrumentsService } from './instruments.service.ts'

const tags = ['Instruments']
const params = labParams({ instrument: IdSchema })

/** HTTP edge of instruments, under /api/labs/:lab. */
export const instrumentsRoutes: FastifyPluginAsyncZod<{ service: InstrumentsService }> = async (app, { service }) => {
  app.get('/instruments', {
    config: { action: 'instrument:read' },
    schema: {
      operationId: 'listInstruments',
      tags,
      params: labParams(),
      response: { 200: pageOf(InstrumentSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor),
  })

  app.get('/instruments/:instrument', {
    config: { action: 'instrument:read' },
    schema: { operationId: 'readInstrument', tags, params, response: { 200: InstrumentSchema, '4xx': ProblemSchema } },
    handler: async (request, reply) => {
      const instrument = await service.read(request.actor, request.params.instrument)
      return reply.header('etag', etagOf(instrument.version)).send(instrument)
    },
  })

  app.post('/instruments', {
    config: { action: 'instrument:create' },
    schema: {
      operationId: 'createInstrument',
      tags,
      params: labParams(),
      body: CreateInstrumentSchema,
      response: { 200: InstrumentSchema, 201: InstrumentSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.create(request.actor, request.body)
      return reply
        .code(created ? 201 : 200)
        .header('etag', etagOf(value.version))
        .send(value)
    },
  })

  app.patch('/instruments/:instrument', {
    config: { action: 'instrument:update' },
    schema: {
      operationId: 'updateInstrument',
      tags,
      params,
      body: UpdateInstrumentSchema,
      response: { 200: InstrumentSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const instrument = await service.update(request.actor, request.params.instrument, request.body, ifMatch(request))
      return reply.header('etag', etagOf(instrument.version)).send(instrument)
    },
  })

  app.post('/instruments/:instrument/factors', {
    config: { action: 'instrument:update' },
    schema: {
      operationId: 'addFactor',
      tags,
      params,
      body: AddFactorSchema,
      response: { 200: InstrumentFactorSchema, 201: InstrumentFactorSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.addFactor(request.actor, request.params.instrument, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/instruments/:instrument/calibrations', {
    config: { action: 'instrument:update' },
    schema: {
      operationId: 'addCalibration',
      tags,
      params,
      body: AddCalibrationSchema,
      response: { 200: CalibrationSchema, 201: CalibrationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.addCalibration(request.actor, request.params.instrument, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
