import { AttachmentSchema, attachmentBytes, CreateAttachmentSchema } from '@curebook/contract/attachments'
import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { AttachmentsService } from './attachments.service.ts'
import { fileHeader } from './file-header.ts'

const tags = ['Attachments']

/** HTTP edge of files beside results, under /api/labs/:lab. */
export const attachmentsRoutes: FastifyPluginAsyncZod<{ service: AttachmentsService }> = async (app, { service }) => {
  app.post('/attachments', {
    config: { action: 'attachment:create' },
    // Base64 takes four signs for three bytes; the name and the rest stand beside.
    bodyLimit: Math.ceil(attachmentBytes / 3) * 4 + 10_000,
    schema: {
      operationId: 'createAttachment',
      tags,
      params: labParams(),
      body: CreateAttachmentSchema,
      response: { 200: AttachmentSchema, 201: AttachmentSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.create(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.get('/attachments/:attachment', {
    config: { action: 'attachment:read' },
    schema: { operationId: 'readAttachment', tags, params: labParams({ attachment: IdSchema }) },
    handler: async (request, reply) => {
      const file = await service.read(request.actor, request.params.attachment)
      return reply
        .type(file.mediaType === 'text/csv' ? 'text/csv; charset=utf-8' : file.mediaType)
        .header('content-disposition', fileHeader(file.name))
        .header('x-content-type-options', 'nosniff')
        .send(Buffer.from(file.body))
    },
  })
}
