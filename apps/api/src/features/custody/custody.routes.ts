import { IdSchema, pageOf } from '@curebook/contract/common'
import {
  CorrectReceiptSchema,
  CreatePlaceSchema,
  ItemSchema,
  PlaceSchema,
  RecordActSchema,
  StockSchema,
} from '@curebook/contract/custody'
import { ProblemSchema } from '@curebook/contract/problem'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { CustodyService } from './custody.service.ts'
import type { PlacesService } from './places.service.ts'
import type { ReceiptCorrectionService } from './receipt-correction.service.ts'
import type { StockService } from './stock.service.ts'

const tags = ['Custody']
const params = labParams({ item: IdSchema })

type Services = {
  custody: CustodyService
  receipts: ReceiptCorrectionService
  places: PlacesService
  stock: StockService
}

/** HTTP edge of items, who has them, the places in which they stand, and what is left, under /api/labs/:lab. */
export const custodyRoutes: FastifyPluginAsyncZod<Services> = async (app, { custody, receipts, places, stock }) => {
  app.get('/items/:item', {
    config: { action: 'material:read' },
    schema: { operationId: 'readItem', tags, params, response: { 200: ItemSchema, '4xx': ProblemSchema } },
    handler: (request) => custody.read(request.actor, request.params.item),
  })

  app.post('/items/:item/custody', {
    config: { action: 'custody:record' },
    schema: {
      operationId: 'recordCustody',
      tags,
      params,
      body: RecordActSchema,
      response: { 200: ItemSchema, 201: ItemSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await custody.record(request.actor, request.params.item, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/items/:item/receipt-corrections', {
    config: { action: 'receipt:correct' },
    schema: {
      operationId: 'correctReceipt',
      tags,
      params,
      body: CorrectReceiptSchema,
      response: { 200: ItemSchema, 201: ItemSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await receipts.correct(request.actor, request.params.item, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.get('/stock', {
    config: { action: 'material:read' },
    schema: {
      operationId: 'listStock',
      tags,
      params: labParams(),
      response: { 200: pageOf(StockSchema), '4xx': ProblemSchema },
    },
    handler: (request) => stock.list(request.actor),
  })

  app.get('/places', {
    config: { action: 'place:read' },
    schema: {
      operationId: 'listPlaces',
      tags,
      params: labParams(),
      response: { 200: pageOf(PlaceSchema), '4xx': ProblemSchema },
    },
    handler: (request) => places.list(request.actor),
  })

  app.post('/places', {
    config: { action: 'place:create' },
    schema: {
      operationId: 'createPlace',
      tags,
      params: labParams(),
      body: CreatePlaceSchema,
      response: { 200: PlaceSchema, 201: PlaceSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await places.create(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
