import { CursorQuerySchema, IdSchema, pageOf } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import { CreateProjectSchema, ProjectSchema, UpdateProjectSchema } from '@curebook/contract/projects'
import { etagOf, ifMatch } from '#platform/etag'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { ProjectsService } from './projects.service.ts'

const tags = ['Projects']
const params = labParams({ project: IdSchema })

/** HTTP edge of projects, under /api/labs/:lab. */
export const projectsRoutes: FastifyPluginAsyncZod<{ service: ProjectsService }> = async (app, { service }) => {
  app.get('/projects', {
    config: { action: 'project:read' },
    schema: {
      operationId: 'listProjects',
      tags,
      params: labParams(),
      querystring: CursorQuerySchema,
      response: { 200: pageOf(ProjectSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.query),
  })

  app.get('/projects/:project', {
    config: { action: 'project:read' },
    schema: { operationId: 'readProject', tags, params, response: { 200: ProjectSchema, '4xx': ProblemSchema } },
    handler: async (request, reply) => {
      const project = await service.read(request.actor, request.params.project)
      return reply.header('etag', etagOf(project.version)).send(project)
    },
  })

  app.post('/projects', {
    config: { action: 'project:create' },
    schema: {
      operationId: 'createProject',
      tags,
      params: labParams(),
      body: CreateProjectSchema,
      response: { 200: ProjectSchema, 201: ProjectSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const { created, value } = await service.create(request.actor, request.body)
      return reply
        .code(created ? 201 : 200)
        .header('etag', etagOf(value.version))
        .send(value)
    },
  })

  app.patch('/projects/:project', {
    config: { action: 'project:update' },
    schema: {
      operationId: 'updateProject',
      tags,
      params,
      body: UpdateProjectSchema,
      response: { 200: ProjectSchema, '4xx': ProblemSchema },
    },
    handler: async (request, reply) => {
      const project = await service.update(request.actor, request.params.project, request.body, ifMatch(request))
      return reply.header('etag', etagOf(project.version)).send(project)
    },
  })
}
