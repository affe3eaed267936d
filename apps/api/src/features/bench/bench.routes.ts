import {
  BenchLookupSchema,
  BenchQueueSchema,
  CorrectReadingSchema,
  PostedReadingSchema,
  PostReadingSchema,
  CorrectActSchema,
  PostStepEventsSchema,
  RackSchema,
  ReplaceTestSchema,
  TestViewSchema,
  VoidTestSchema,
  WithdrawReadingSchema,
} from '@curebook/contract/bench'
import { CastingPlanSchema } from '@curebook/contract/casting'
import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import { PutInQuerySchema, PutInSchema, SettledPutInSchema, SettlePutInSchema } from '@curebook/contract/put-in'
import { BulkOutcomeSchema } from '@curebook/contract/schedule'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import type { BenchQueueService } from './bench-queue.service.ts'
import type { CastingService } from './casting.service.ts'
import type { EndingService } from './ending.service.ts'
import type { ActCorrectionsService } from './act-corrections.service.ts'
import type { PutInService } from './put-in.service.ts'
import type { ReadingsService } from './readings.service.ts'
import type { StepEventsService } from './step-events.service.ts'
import type { TestViewService } from './test-view.service.ts'
import type { WithdrawalsService } from './withdrawals.service.ts'

export type BenchServices = {
  queue: BenchQueueService
  casting: CastingService
  putIn: PutInService
  view: TestViewService
  readings: ReadingsService
  withdrawals: WithdrawalsService
  stepEvents: StepEventsService
  actCorrections: ActCorrectionsService
  ending: EndingService
}

const tags = ['Bench']
const test = labParams({ test: IdSchema })
const QueueQuery = z.strictObject({ whose: z.enum(['mine', 'all']).default('mine') })
const RackQuery = z.strictObject({
  methodKey: z.string(),
  stepKey: z.string(),
  readingKey: z.string(),
  designId: IdSchema.optional(),
})

/** HTTP edge of the bench, under /api/labs/:lab. */
export const benchRoutes: FastifyPluginAsyncZod<{ services: BenchServices }> = async (app, { services }) => {
  app.get('/bench/queue', {
    config: { action: 'bench:read' },
    schema: {
      operationId: 'readBenchQueue',
      tags,
      params: labParams(),
      querystring: QueueQuery,
      response: { 200: BenchQueueSchema, '4xx': ProblemSchema },
    },
    handler: (request) => services.queue.queue(request.actor, request.query),
  })
  app.get('/bench/casting/:design', {
    config: { action: 'bench:read' },
    schema: {
      operationId: 'readCastingPlan',
      tags,
      params: labParams({ design: IdSchema }),
      response: { 200: CastingPlanSchema, '4xx': ProblemSchema },
    },
    handler: (request) => services.casting.plan(request.actor, request.params.design),
  })
  app.get('/bench/put-in', {
    config: { action: 'bench:read' },
    schema: {
      operationId: 'readPutIn',
      tags,
      params: labParams(),
      querystring: PutInQuerySchema,
      response: { 200: PutInSchema, '4xx': ProblemSchema },
    },
    handler: (request) => services.putIn.read(request.actor, request.query),
  })
  app.post('/bench/put-in-lists', {
    config: { action: 'put-in:settle' },
    schema: {
      operationId: 'settlePutIn',
      tags,
      params: labParams(),
      body: SettlePutInSchema,
      response: { 200: SettledPutInSchema, 201: SettledPutInSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await services.putIn.settle(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.get('/bench/lookup', {
    config: { action: 'bench:read' },
    schema: {
      operationId: 'lookUpCode',
      tags,
      params: labParams(),
      querystring: z.strictObject({ code: z.string().trim().min(1).max(40) }),
      response: { 200: BenchLookupSchema, '4xx': ProblemSchema },
    },
    handler: (request) => services.queue.lookUp(request.actor, request.query.code),
  })
  app.get('/bench/rack', {
    config: { action: 'bench:read' },
    schema: {
      operationId: 'readRack',
      tags,
      params: labParams(),
      querystring: RackQuery,
      response: { 200: RackSchema, '4xx': ProblemSchema },
    },
    handler: (request) =>
      services.queue.rack(request.actor, { ...request.query, designId: request.query.designId ?? null }),
  })
  app.get('/tests/:test', {
    config: { action: 'bench:read' },
    schema: { operationId: 'readTest', tags, params: test, response: { 200: TestViewSchema, '4xx': ProblemSchema } },
    handler: (request) => services.view.one(request.actor, request.params.test),
  })
  app.post('/tests/:test/readings', {
    config: { action: 'reading:create' },
    schema: {
      operationId: 'postReading',
      tags,
      params: test,
      body: PostReadingSchema,
      response: { 200: PostedReadingSchema, 201: PostedReadingSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await services.readings.post(request.actor, request.params.test, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/readings/:reading/corrections', {
    config: { action: 'reading:correct' },
    schema: {
      operationId: 'correctReading',
      tags,
      params: labParams({ reading: IdSchema }),
      body: CorrectReadingSchema,
      response: { 200: PostedReadingSchema, 201: PostedReadingSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await services.readings.correct(request.actor, request.params.reading, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/readings/:reading/withdrawal', {
    config: { action: 'reading:withdraw' },
    schema: {
      operationId: 'withdrawReading',
      tags,
      params: labParams({ reading: IdSchema }),
      body: WithdrawReadingSchema,
      response: { 200: PostedReadingSchema, 201: PostedReadingSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await services.withdrawals.withdraw(
        request.actor,
        request.params.reading,
        request.body,
      )
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/step-events', {
    config: { action: 'step-event:create' },
    schema: {
      operationId: 'confirmSteps',
      tags,
      params: labParams(),
      body: PostStepEventsSchema,
      response: { 200: BulkOutcomeSchema, '4xx': ProblemSchema },
    },
    handler: (request) => services.stepEvents.confirm(request.actor, request.body),
  })
  app.post('/tests/:test/acts/:act/corrections', {
    config: { action: 'step-event:correct' },
    schema: {
      operationId: 'correctAct',
      tags,
      params: labParams({ test: IdSchema, act: IdSchema }),
      body: CorrectActSchema,
      response: { 200: TestViewSchema, '4xx': ProblemSchema },
    },
    handler: async (request) => {
      const { test: testId, act } = request.params
      await services.actCorrections.correct(request.actor, testId, act, request.body)
      return services.view.one(request.actor, testId)
    },
  })
  app.post('/tests/:test/void', {
    config: { action: 'test:void' },
    schema: {
      operationId: 'voidTest',
      tags,
      params: test,
      body: VoidTestSchema,
      response: { 200: TestViewSchema, '4xx': ProblemSchema },
    },
    handler: async (request) => {
      await services.ending.void(request.actor, request.params.test, request.body)
      return services.view.one(request.actor, request.params.test)
    },
  })
  app.post('/tests/:test/replace', {
    config: { action: 'test:replace' },
    schema: {
      operationId: 'replaceTest',
      tags,
      params: test,
      body: ReplaceTestSchema,
      response: { 200: TestViewSchema, '4xx': ProblemSchema },
    },
    handler: async (request) => {
      await services.ending.replace(request.actor, request.params.test, request.body)
      return services.view.one(request.actor, request.params.test)
    },
  })
}
