import { IdSchema, pageOf } from '@curebook/contract/common'
import { ProblemSchema } from '@curebook/contract/problem'
import {
  AnswerQuestionSchema,
  AskQuestionSchema,
  QuestionSchema,
  QuestionsQuerySchema,
} from '@curebook/contract/questions'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { labParams } from '#platform/lab-params'
import type { QuestionsService } from './questions.service.ts'

const tags = ['Questions']

/** HTTP edge of clients' questions, under /api/labs/:lab. A client reads their own in their progress. */
export const questionsRoutes: FastifyPluginAsyncZod<{ service: QuestionsService }> = async (app, { service }) => {
  const response = { 200: QuestionSchema, 201: QuestionSchema, '4xx': ProblemSchema } as const
  app.get('/questions', {
    config: { action: 'question:read' },
    schema: {
      operationId: 'listQuestions',
      tags,
      params: labParams(),
      querystring: QuestionsQuerySchema,
      response: { 200: pageOf(QuestionSchema), '4xx': ProblemSchema },
    },
    handler: (request) => service.list(request.actor, request.query),
  })
  app.post('/questions/:question/answers', {
    config: { action: 'question:answer' },
    schema: {
      operationId: 'answerQuestion',
      tags,
      params: labParams({ question: IdSchema }),
      body: AnswerQuestionSchema,
      response,
    },
    handler: async (request, reply) => {
      const { created, value } = await service.answer(request.actor, request.params.question, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
  app.post('/own-questions', {
    config: { action: 'question:ask' },
    schema: { operationId: 'askQuestion', tags, params: labParams(), body: AskQuestionSchema, response },
    handler: async (request, reply) => {
      const { created, value } = await service.ask(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })
}
