import { ProblemSchema } from '@curebook/contract/problem'
import {
  AssignmentCheckSchema,
  AssignmentConflictsSchema,
  AssignSchema,
  BulkOutcomeSchema,
  ScheduleSchema,
} from '@curebook/contract/schedule'
import { requiredIdempotencyKey } from '#platform/idempotency'
import { labParams } from '#platform/lab-params'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import type { ScheduleService } from './schedule.service.ts'

const tags = ['Schedule']

/** HTTP edge of the schedule, under /api/labs/:lab. */
export const scheduleRoutes: FastifyPluginAsyncZod<{ service: ScheduleService }> = async (app, { service }) => {
  app.get('/schedule', {
    config: { action: 'assignment:read' },
    schema: {
      operationId: 'readSchedule',
      tags,
      params: labParams(),
      response: { 200: ScheduleSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.read(request.actor),
  })

  app.post('/schedule/assignment-check', {
    config: { action: 'assignment:create' },
    schema: {
      operationId: 'checkAssignment',
      tags,
      params: labParams(),
      body: AssignmentCheckSchema,
      response: { 200: AssignmentConflictsSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.check(request.actor, request.body),
  })

  app.post('/assignments', {
    config: { action: 'assignment:create' },
    schema: {
      operationId: 'assignTests',
      tags,
      params: labParams(),
      body: AssignSchema,
      response: { 200: BulkOutcomeSchema, '4xx': ProblemSchema },
    },
    handler: (request) => service.assign(request.actor, request.body, requiredIdempotencyKey(request)),
  })
}
