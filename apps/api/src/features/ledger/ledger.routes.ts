import {
  HeadPrintSchema,
  LedgerEntriesSchema,
  LedgerHeadSchema,
  LedgerQuerySchema,
  LedgerVerdictSchema,
  PrintHeadSchema,
  VerifyLedgerSchema,
} from '@curebook/contract/ledger'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import type { LedgerService } from './ledger.service.ts'

/** HTTP edge of the ledger, under /api/labs/:lab. */
export const ledgerRoutes: FastifyPluginAsyncZod<{ service: LedgerService }> = async (app, { service }) => {
  const tags = ['Ledger']
  const problems = { '4xx': ProblemSchema }

  app.get('/ledger/entries', {
    config: { action: 'ledger:read' },
    schema: {
      operationId: 'listLedgerEntries',
      tags,
      params: labParams(),
      querystring: LedgerQuerySchema,
      response: { 200: LedgerEntriesSchema, ...problems },
    },
    handler: (request) => service.list(request.actor, request.query),
  })

  app.post('/ledger/verify', {
    config: { action: 'ledger:verify' },
    schema: {
      operationId: 'verifyLedger',
      tags,
      params: labParams(),
      body: VerifyLedgerSchema,
      response: { 200: LedgerVerdictSchema, ...problems },
    },
    handler: (request) => service.verify(request.actor, request.body),
  })

  app.get('/ledger/head', {
    config: { action: 'ledger:read' },
    schema: {
      operationId: 'readLedgerHead',
      tags,
      params: labParams(),
      response: { 200: LedgerHeadSchema, ...problems },
    },
    handler: (request) => service.head(request.actor),
  })

  app.get('/ledger/head-prints', {
    config: { action: 'ledger:read' },
    schema: {
      operationId: 'listHeadPrints',
      tags,
      params: labParams(),
      response: { 200: z.array(HeadPrintSchema), ...problems },
    },
    handler: (request) => service.heads(request.actor),
  })

  app.post('/ledger/head-prints', {
    config: { action: 'ledger:print-head' },
    schema: {
      operationId: 'printLedgerHead',
      tags,
      params: labParams(),
      body: PrintHeadSchema,
      response: { 201: HeadPrintSchema, ...problems },
    },
    handler: async (request, reply) => reply.code(201).send(await service.printHead(request.actor, request.body)),
  })
}
