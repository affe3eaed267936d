import { CursorQuerySchema, IdSchema, pageOf } from '@curebook/contract/common'
import { DemandCheckSchema } from '@curebook/contract/demand'
import {
  BatchSheetSchema,
  CreateDesignSchema,
  DesignSchema,
  DesignSummarySchema,
  EnteredResultSchema,
  EnterResultSchema,
  PlanMaterialTestSchema,
  PlanSeriesSchema,
  RevisionQuerySchema,
  SpecimenRowSchema,
  UpdateDesignSchema,
} from '@curebook/contract/designs'
import { EnterGradationSchema, GradationSchema } from '@curebook/contract/gradations'
import { EnterPanelResultSchema, PanelResultSchema } from '@curebook/contract/panel-results'
import { ProblemSchema } from '@curebook/contract/problem'
import { NewRevisionSchema } from '@curebook/contract/review'
import { etagOf, ifMatch } from '#platform/etag'
import { requiredIdempotencyKey } from '#platform/idempotency'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { DesignsService } from './designs.service.ts'

const tags = ['Designs']
const params = labParams({ design: IdSchema })

/** HTTP edge of mix designs, under /api/labs/:lab. */
export const designsRoutes: FastifyPluginAsyncZod<{ service: DesignsService }> = async (app, { service }) => {
  app.get('/designs', {
    config: { action: 'design:read' },
    schema: {
      operationId: 'listDesigns',
      tags,
      params: labParams(),
      querystring: CursorQuerySchema,
      response: { 200: pageOf(DesignSummarySchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.query),
  })

  app.get('/designs/:design', {
    config: { action: 'design:read' },
    schema: {
      operationId: 'readDesign',
      tags,
      params,
      querystring: RevisionQuerySchema,
      response: { 200: DesignSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const design = await service.read(request.actor, request.params.design, request.query.revision)
      return reply.header('etag', etagOf(design.version)).send(design)
    },
  })

  app.post('/designs', {
    config: { action: 'design:create' },
    schema: {
      operationId: 'createDesign',
      tags,
      params: labParams(),
      body: CreateDesignSchema,
      response: { 200: DesignSchema, 201: DesignSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.create(request.actor, request.body)
      return reply
        .code(created ? 201 : 200)
        .header('etag', etagOf(value.version))
        .send(value)
    },
  })

  app.patch('/designs/:design', {
    config: { action: 'design:update' },
    schema: {
      operationId: 'updateDesign',
      tags,
      params,
      body: UpdateDesignSchema,
      response: { 200: DesignSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const design = await service.update(request.actor, request.params.design, request.body, ifMatch(request))
      return reply.header('etag', etagOf(design.version)).send(design)
    },
  })

  app.get('/designs/:design/demand', {
    config: { action: 'design:read' },
    schema: {
      operationId: 'readDemand',
      tags,
      params,
      response: { 200: DemandCheckSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.demandCheck(request.actor, request.params.design, null),
  })

  app.post('/designs/:design/demand', {
    config: { action: 'design:read' },
    schema: {
      operationId: 'checkDemand',
      tags,
      params,
      body: PlanSeriesSchema,
      response: { 200: DemandCheckSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.demandCheck(request.actor, request.params.design, request.body),
  })

  app.post('/designs/:design/entered-results', {
    config: { action: 'design:enter-result' },
    schema: {
      operationId: 'enterResult',
      tags,
      params,
      body: EnterResultSchema,
      response: { 200: EnteredResultSchema, 201: EnteredResultSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.enterResult(request.actor, request.params.design, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/designs/:design/panel-results', {
    config: { action: 'design:enter-result' },
    schema: {
      operationId: 'enterPanelResult',
      tags,
      params,
      body: EnterPanelResultSchema,
      response: { 200: PanelResultSchema, 201: PanelResultSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.enterPanelResult(request.actor, request.params.design, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/designs/:design/gradations', {
    config: { action: 'design:enter-result' },
    schema: {
      operationId: 'enterGradation',
      tags,
      params,
      body: EnterGradationSchema,
      response: { 200: GradationSchema, 201: GradationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.enterGradation(request.actor, request.params.design, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.post('/designs/:design/plan', {
    config: { action: 'design:plan' },
    schema: {
      operationId: 'planDesign',
      tags,
      params,
      body: PlanSeriesSchema,
      response: { 200: pageOf(SpecimenRowSchema), '4xx': ProblemSchema },
    },
    handler: (request) =>
      service.plan(request.actor, request.params.design, request.body, requiredIdempotencyKey(request)),
  })

  app.post('/designs/:design/material-tests', {
    config: { action: 'design:plan' },
    schema: {
      operationId: 'planMaterialTest',
      tags,
      params,
      body: PlanMaterialTestSchema,
      response: { 200: pageOf(SpecimenRowSchema), '4xx': ProblemSchema },
    },
    handler: (request) =>
      service.planMaterialTest(request.actor, request.params.design, request.body, requiredIdempotencyKey(request)),
  })

  app.get('/designs/:design/specimens', {
    config: { action: 'design:read' },
    schema: {
      operationId: 'listSpecimens',
      tags,
      params,
      querystring: RevisionQuerySchema,
      response: { 200: pageOf(SpecimenRowSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.specimens(request.actor, request.params.design, request.query.revision),
  })

  app.get('/designs/:design/batch-sheets', {
    config: { action: 'design:read' },
    schema: {
      operationId: 'listBatchSheets',
      tags,
      params,
      querystring: RevisionQuerySchema,
      response: { 200: pageOf(BatchSheetSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.batchSheets(request.actor, request.params.design, request.query.revision),
  })

  app.post('/designs/:design/revisions', {
    config: { action: 'revision:create' },
    schema: {
      operationId: 'startRevision',
      tags,
      params,
      body: NewRevisionSchema,
      response: { 200: DesignSchema, 201: DesignSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.startRevision(request.actor, request.params.design, request.body)
      return reply
        .code(created ? 201 : 200)
        .header('etag', etagOf(value.version))
        .send(value)
    },
  })
}
