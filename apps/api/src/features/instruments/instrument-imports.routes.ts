import { IdSchema, pageOf } from '@curebook/contract/common'
import {
  ImportInstrumentsSchema,
  ImportPreviewSchema,
  InstrumentImportSchema,
  PreviewImportSchema,
  TakeBackImportSchema,
} from '@curebook/contract/instrument-imports'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { InstrumentImportsService } from './instrument-imports.service.ts'

const tags = ['Instruments']

/** HTTP edge of imports of instruments, under /api/labs/:lab. */
export const instrumentImportsRoutes: FastifyPluginAsyncZod<{ service: InstrumentImportsService }> = async (
  app,
  { service },
) => {
  app.get('/instrument-imports', {
    config: { action: 'instrument:read' },
    schema: {
      operationId: 'listInstrumentImports',
      tags,
      params: labParams(),
      response: { 200: pageOf(InstrumentImportSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor),
  })

  app.post('/instrument-imports/preview', {
    config: { action: 'instrument:import' },
    schema: {
      operationId: 'previewInstrumentImport',
      tags,
      params: labParams(),
      body: PreviewImportSchema,
      response: { 200: ImportPreviewSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.preview(request.actor, request.body),
  })

  app.post('/instrument-imports', {
    config: { action: 'instrument:import' },
    schema: {
      operationId: 'importInstruments',
      tags,
      params: labParams(),
      body: ImportInstrumentsSchema,
      response: { 200: InstrumentImportSchema, 201: InstrumentImportSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.bringIn(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/instrument-imports/:import/withdrawal', {
    config: { action: 'instrument:import' },
    schema: {
      operationId: 'takeBackInstrumentImport',
      tags,
      params: labParams({ import: IdSchema }),
      body: TakeBackImportSchema,
      response: { 200: InstrumentImportSchema, 201: InstrumentImportSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.takeBack(request.actor, request.params.import, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
