import { ProblemSchema } from '@curebook/contract/problem'
import { ValidationSchema } from '@curebook/contract/validation'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { ValidationService } from './validation.service.ts'

/** HTTP edge of the installation's own validation, under /api/labs/:lab. */
export const validationRoutes: FastifyPluginAsyncZod<{ service: ValidationService }> = async (app, { service }) => {
  app.get('/validation', {
    config: { action: 'validation:run' },
    schema: {
      operationId: 'runValidation',
      tags: ['Validation'],
      params: labParams(),
      response: { 200: ValidationSchema, '4xx': ProblemSchema },
    },
    handler: () => service.run(),
  })
}
