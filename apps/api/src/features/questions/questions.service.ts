import type { AnswerQuestion, AskQuestion, Question, QuestionsQuery } from '@curebook/contract/questions'
import type { MailService } from '#features/mail/mail.service'
import type { Actor } from '#platform/actor'
import { createOnce, type Created } from '#platform/creation'
import { twice } from '#platform/database-errors'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { rowsSqlOf } from '#platform/sql-rows'
import { findQuestions } from './questions.repository.ts'

export { findQuestions as questionsIn } from './questions.repository.ts'
export type QuestionsService = ReturnType<typeof createQuestionsService>

/** Questions of clients where they came up, and the answers that stay with them. Nothing of either is ever changed. */
export function createQuestionsService({
  laboratory,
  mail,
}: {
  laboratory: Laboratory
  mail: Pick<MailService, 'writeToClient'>
}) {
  const one = async (tx: LaboratoryTransaction, id: string): Promise<Question | null> =>
    (await findQuestions(rowsSqlOf(tx), { id }))[0] ?? null

  const list = (actor: Actor, query: QuestionsQuery): Promise<{ items: Question[]; next: null }> =>
    laboratory.inLaboratory(actor, async (tx) => ({ items: await findQuestions(rowsSqlOf(tx), query), next: null }))

  /** By a client, who reads no ledger: what stands under an id is compared with what is asked now. */
  const ask = (actor: Actor, input: AskQuestion): Promise<Created<Question>> =>
    twice(() => laboratory.inLaboratory(actor, (tx) => askIn(tx, input)))

  async function askIn(tx: LaboratoryTransaction, input: AskQuestion): Promise<Created<Question>> {
    const { prisma, actor, at } = tx
    const { labId, membershipId, name } = actor
    const { id, projectId, reportId, text } = input
    const stored = await one(tx, id)
    if (stored) {
      if (stored.projectId === projectId && stored.reportId === reportId && stored.text === text)
        return { created: false, value: stored }
      throw new AppError('conflict', 'Another question stands under this id. Send the new one under an id of its own.')
    }
    // A client's session is shown its own projects and reports only: any other is not there.
    const project = await prisma.project.findUnique({ where: { labId_id: { labId, id: projectId } } })
    if (!project) throw notFound('project')
    const ofReport = { labId, id: reportId ?? '', projectId }
    if (reportId !== null && !(await prisma.report.findFirst({ where: ofReport, select: { id: true } })))
      throw invalidField('reportId', 'There is no such report of this project.')
    const { clientId } = project
    await prisma.question.createMany({
      data: [{ labId, id, projectId, clientId, reportId, text, printedName: name, byId: membershipId, at }],
    })
    tx.record({
      action: 'question:ask',
      subjectKind: 'question',
      subjectId: id,
      projectId,
      clientId,
      topics: ['questions', `project:${projectId}`],
      content: { text, report: reportId },
    })
    return { created: true, value: (await one(tx, id))! }
  }

  /** @throws AppError `not-found` for a question that is not of this laboratory */
  const answer = (actor: Actor, questionId: string, input: AnswerQuestion): Promise<Created<Question>> =>
    createOnce(laboratory, actor, {
      subjectKind: 'question-answer',
      id: input.id,
      input: { ...input, questionId },
      find: async (tx) => {
        const key = { labId_id: { labId: actor.labId, id: input.id } }
        const found = await tx.prisma.questionAnswer.findUnique({ where: key, select: { questionId: true } })
        return found && one(tx, found.questionId)
      },
      create: async (tx) => {
        const { labId, membershipId, name } = actor
        const where = { labId_id: { labId, id: questionId } }
        const question = await tx.prisma.question.findUnique({ where })
        if (!question) throw notFound('question')
        const { clientId, projectId } = question
        const { id, text } = input
        await tx.prisma.questionAnswer.createMany({
          data: [{ labId, id, questionId, clientId, text, printedName: name, byId: membershipId, at: tx.at }],
        })
        tx.record({
          action: 'question:answer',
          subjectKind: 'question-answer',
          subjectId: id,
          projectId,
          clientId,
          topics: ['questions', `project:${projectId}`],
          content: { question: questionId, text },
        })
        await mail.writeToClient(tx, { kind: 'answers', clientId, projectId })
        return (await one(tx, questionId))!
      },
    })

  return { list, ask, answer }
}
