import { IdSchema } from '@curebook/contract/common'
import { RevisionQuerySchema } from '@curebook/contract/designs'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  EnterTrialCupSchema,
  TrialBaseSchema,
  TrialCupSchema,
  TrialCupsSchema,
  UseAsBaseSchema,
} from '@curebook/contract/trials'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { TrialsService } from './trials.service.ts'

const tags = ['Trials']
const params = labParams({ design: IdSchema })

/** HTTP edge of trial-mix cups, under /api/labs/:lab. */
export const trialsRoutes: FastifyPluginAsyncZod<{ service: TrialsService }> = async (app, { service }) => {
  app.get('/designs/:design/trial-cups', {
    config: { action: 'trial-cup:read' },
    schema: {
      operationId: 'listTrialCups',
      tags,
      params,
      querystring: RevisionQuerySchema,
      response: { 200: TrialCupsSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.params.design, request.query.revision),
  })

  app.post('/designs/:design/trial-cups', {
    config: { action: 'trial-cup:create' },
    schema: {
      operationId: 'enterTrialCup',
      tags,
      params,
      body: EnterTrialCupSchema,
      response: { 200: TrialCupSchema, 201: TrialCupSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.enter(request.actor, request.params.design, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/designs/:design/trial-base', {
    config: { action: 'trial-cup:use' },
    schema: {
      operationId: 'useTrialCupAsBase',
      tags,
      params,
      body: UseAsBaseSchema,
      response: { 200: TrialBaseSchema, 201: TrialBaseSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.useAsBase(request.actor, request.params.design, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
