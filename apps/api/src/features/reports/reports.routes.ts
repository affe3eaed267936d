import { IdSchema, pageOf } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  IssueReportSchema,
  PreviewReportSchema,
  ReportCheckSchema,
  ReportPreviewSchema,
  ReportSchema,
  ReportsQuerySchema,
} from '@curebook/contract/reports'
import type { FastifyReply } from 'fastify'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { labParams } from '#platform/lab-params'
import type { ReportFile } from './reports.repository.ts'
import type { ReportsService } from './reports.service.ts'

const tags = ['Reports']

/** HTTP edge of reports, under /api/labs/:lab. */
export const reportsRoutes: FastifyPluginAsyncZod<{ service: ReportsService }> = async (app, { service }) => {
  const params = labParams({ report: IdSchema })
  app.get('/reports', {
    config: { action: 'report:read' },
    schema: {
      operationId: 'listReports',
      tags,
      params: labParams(),
      querystring: ReportsQuerySchema,
      response: { 200: pageOf(ReportSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.query),
  })
  app.post('/reports', {
    config: { action: 'report:issue' },
    schema: {
      operationId: 'issueReport',
      tags,
      params: labParams(),
      body: IssueReportSchema,
      response: { 200: ReportSchema, 201: ReportSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.issue(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.get('/reports/:report/pdf', {
    config: { action: 'report:read' },
    schema: { operationId: 'readReportPdf', tags, params },
    handler: async (request, reply) => sendPdf(reply, await service.pdf(request.actor, request.params.report)),
  })
  app.get('/reports/:report/csv', {
    config: { action: 'report:read' },
    schema: { operationId: 'readReportCsv', tags, params },
    handler: async (request, reply) => {
      const csv = await service.csv(request.actor, request.params.report)
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', 'attachment; filename="results.csv"')
        .send(csv)
    },
  })
  app.get('/reports/:report/content', {
    config: { action: 'report:read' },
    schema: { operationId: 'readSignedContent', tags, params },
    handler: async (request, reply) => {
      const bytes = await service.signedBytes(request.actor, request.params.report)
      return reply
        .type('application/json; charset=utf-8')
        .header('content-disposition', 'attachment; filename="signed-content.json"')
        .send(bytes)
    },
  })
  app.get('/own-reports/:report/pdf', {
    config: { action: 'report:read-own' },
    schema: { operationId: 'readOwnReportPdf', tags, params },
    handler: async (request, reply) => sendPdf(reply, await service.pdf(request.actor, request.params.report)),
  })
}

/** Previews of reports: for those who may issue, and for nobody else. */
export const reportPreviewRoutes: FastifyPluginAsyncZod<{ service: ReportsService }> = async (app, { service }) => {
  const { previews } = service
  const params = labParams({ preview: IdSchema })
  app.post('/report-previews', {
    config: { action: 'report:issue' },
    schema: {
      operationId: 'previewReport',
      tags,
      params: labParams(),
      body: PreviewReportSchema,
      response: { 200: ReportPreviewSchema, 201: ReportPreviewSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await previews.create(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.get('/report-previews/:preview', {
    config: { action: 'report:issue' },
    schema: {
      operationId: 'readReportPreview',
      tags,
      params,
      response: { 200: ReportPreviewSchema, '4xx': ProblemSchema },
    },
    handler: (request) => previews.read(request.actor, request.params.preview),
  })
  app.get('/report-previews/:preview/pdf', {
    config: { action: 'report:issue', framed: true },
    schema: { operationId: 'readReportPreviewPdf', tags, params },
    handler: async (request, reply) =>
      sendUnreleased(reply, 'preview-not-released.pdf', await previews.pdf(request.actor, request.params.preview)),
  })
  app.get('/designs/:design/draft-report', {
    config: { action: 'report:issue', framed: true },
    schema: { operationId: 'readDraftReport', tags, params: labParams({ design: IdSchema }) },
    handler: async (request, reply) =>
      sendUnreleased(reply, 'draft-not-approved.pdf', await previews.draft(request.actor, request.params.design)),
  })
}

/** The public check, under /api. */
export const reportCheckRoutes: FastifyPluginAsyncZod<{ service: ReportsService }> = async (app, { service }) => {
  app.get('/check/:code', {
    config: { action: 'report:check' },
    schema: {
      operationId: 'checkReport',
      tags,
      params: z.object({ code: z.string().min(1).max(60) }),
      response: { 200: ReportCheckSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.check(request.params.code),
  })
}

/** The name says what the file itself cannot: it is the one that is released later, and not released yet. */
function sendUnreleased(reply: FastifyReply, name: string, body: Buffer): FastifyReply {
  return reply
    .type('application/pdf')
    .header('content-disposition', `inline; filename="${name}"`)
    .header('x-content-type-options', 'nosniff')
    .send(body)
}

function sendPdf(reply: FastifyReply, file: ReportFile): FastifyReply {
  return reply
    .type(file.media_type)
    .header('content-disposition', `inline; filename="${file.name}"`)
    .header('x-content-type-options', 'nosniff')
    .send(Buffer.from(file.body))
}
