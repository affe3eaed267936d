import { IdSchema } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  PinnedSpecificationSchema,
  ProjectSpecificationsSchema,
  SetProjectSpecificationSchema,
} from '@curebook/contract/project-specifications'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ProjectSpecificationsService } from './project-specifications.service.ts'

const tags = ['Projects']

/** HTTP edge of what projects stand on, under /api/labs/:lab. A client reads name and version in their progress. */
export const projectSpecificationsRoutes: FastifyPluginAsyncZod<{ service: ProjectSpecificationsService }> = async (
  app,
  { service },
) => {
  const params = labParams({ project: IdSchema })
  app.get('/projects/:project/specifications', {
    config: { action: 'project:read' },
    schema: {
      operationId: 'readProjectSpecifications',
      tags,
      params,
      response: { 200: ProjectSpecificationsSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.read(request.actor, request.params.project),
  })
  app.post('/projects/:project/specifications', {
    config: { action: 'project:pin' },
    schema: {
      operationId: 'setProjectSpecification',
      tags,
      params,
      body: SetProjectSpecificationSchema,
      response: { 200: PinnedSpecificationSchema, 201: PinnedSpecificationSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.set(request.actor, request.params.project, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
