import { z } from 'zod'
import { IdSchema, InstantSchema } from './common.ts'

const text = (message: string) => z.string().trim().min(1, message).max(2000)

/** A client's question where it came up, with what the laboratory answered. */
export const QuestionSchema = z.object({
  id: IdSchema,
  projectId: IdSchema,
  projectName: z.string(),
  /** The report that it is about; null for the project as a whole. */
  reportId: IdSchema.nullable(),
  reportNumber: z.string().nullable(),
  text: z.string(),
  askedBy: z.string(),
  askedAt: InstantSchema,
  answers: z.array(z.object({ id: IdSchema, text: z.string(), answeredBy: z.string(), answeredAt: InstantSchema })),
})
export type Question = z.infer<typeof QuestionSchema>

/** Questions of one project or of all, all of them or those without an answer. */
export const QuestionsQuerySchema = z.strictObject({
  projectId: IdSchema.optional(),
  open: z.literal('true').optional(),
})
export type QuestionsQuery = z.infer<typeof QuestionsQuerySchema>

export const AskQuestionSchema = z.strictObject({
  id: IdSchema,
  projectId: IdSchema,
  reportId: IdSchema.nullable(),
  text: text('Write your question'),
})
export type AskQuestion = z.infer<typeof AskQuestionSchema>

export const AnswerQuestionSchema = z.strictObject({ id: IdSchema, text: text('Write the answer') })
export type AnswerQuestion = z.infer<typeof AnswerQuestionSchema>
