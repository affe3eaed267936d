import { IdSchema, pageOf } from '@curebook/contract/common'
import {
  EditSpecificationSchema,
  SpecificationHistorySchema,
  WithdrawSpecificationSchema,
  WriteSpecificationSchema,
} from '@curebook/contract/own-specifications'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  AdoptSpecificationSchema,
  BuiltInSpecificationSchema,
  SpecificationSchema,
  SpecificationsQuerySchema,
} from '@curebook/contract/specifications'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { SpecificationsService } from './specifications.service.ts'

const tags = ['Specifications']

/** HTTP edge of specifications, under /api/labs/:lab. */
export const specificationsRoutes: FastifyPluginAsyncZod<{ service: SpecificationsService }> = async (
  app,
  { service },
) => {
  app.get('/specifications', {
    config: { action: 'specification:read' },
    schema: {
      operationId: 'listSpecifications',
      tags,
      params: labParams(),
      querystring: SpecificationsQuerySchema,
      response: { 200: pageOf(SpecificationSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.query),
  })

  app.get('/specifications/built-in', {
    config: { action: 'specification:read' },
    schema: {
      operationId: 'listBuiltInSpecifications',
      tags,
      params: labParams(),
      response: { 200: pageOf(BuiltInSpecificationSchema), '4xx': ProblemSchema },
    },
    handler: () => service.builtIn(),
  })

  app.post('/specifications', {
    config: { action: 'specification:adopt' },
    schema: {
      operationId: 'adoptSpecification',
      tags,
      params: labParams(),
      body: AdoptSpecificationSchema,
      response: { 200: SpecificationSchema, 201: SpecificationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.adopt(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.get('/specifications/:specification', {
    config: { action: 'specification:read' },
    schema: {
      operationId: 'readSpecification',
      tags,
      params: labParams({ specification: IdSchema }),
      response: { 200: SpecificationHistorySchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.history(request.actor, request.params.specification),
  })

  app.post('/specifications/own', {
    config: { action: 'specification:write' },
    schema: {
      operationId: 'writeSpecification',
      tags,
      params: labParams(),
      body: WriteSpecificationSchema,
      response: { 200: SpecificationSchema, 201: SpecificationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.write(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/specifications/:specification/versions', {
    config: { action: 'specification:write' },
    schema: {
      operationId: 'editSpecification',
      tags,
      params: labParams({ specification: IdSchema }),
      body: EditSpecificationSchema,
      response: { 200: SpecificationSchema, 201: SpecificationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.edit(request.actor, request.params.specification, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/specifications/:specification/withdraw', {
    config: { action: 'specification:withdraw' },
    schema: {
      operationId: 'withdrawSpecification',
      tags,
      params: labParams({ specification: IdSchema }),
      body: WithdrawSpecificationSchema,
      response: { 200: SpecificationHistorySchema, 201: SpecificationHistorySchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.withdraw(request.actor, request.params.specification, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
