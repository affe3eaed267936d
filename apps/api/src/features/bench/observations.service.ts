import { observationsOfForm } from '@curebook/contract/observation-words'
import type { DesignObservations, Observation, PostObservation } from '@curebook/contract/observations'
import type { AttachmentsService } from '#features/attachments/attachments.service'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { rowsSqlOf } from '#platform/sql-rows'
import { tellTime } from '#platform/told-time'
import { findObservations, hasDesign, insertObservation, testsOfDesign } from './observations.repository.ts'
import { methodOf, type SettleContext } from './settle.ts'
import { loadTests } from './test-record.repository.ts'
import { topicsOf } from './topics.ts'

export type ObservationsService = ReturnType<typeof createObservationsService>

/** What is seen at a step: kept beside the readings, of void specimens too. It changes no result; review and report tell it. */
export function createObservationsService({
  laboratory,
  methods,
  attachments,
}: { laboratory: Laboratory; attachments: Pick<AttachmentsService, 'assertIn'> } & Pick<SettleContext, 'methods'>) {
  return {
    ofDesign: (actor: Actor, designId: string): Promise<DesignObservations> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const sql = rowsSqlOf(tx)
        if (!(await hasDesign(sql, designId))) throw notFound('design')
        const tests = new Map(
          (await testsOfDesign(sql, designId)).map(({ testId, specimenTestId }) => [testId, specimenTestId]),
        )
        const items = (await findObservations(sql, { testIds: [...tests.keys()] })).flatMap((one) =>
          one.superseded ? [] : [{ ...one, specimenTestId: tests.get(one.testId) ?? one.testId }],
        )
        return { items, next: null }
      }),

    post: (actor: Actor, testId: string, input: PostObservation) =>
      createOnce(laboratory, actor, {
        subjectKind: 'observation',
        id: input.id,
        input: { testId, ...input, time: { ...input.time, sentAt: undefined } },
        find: async (tx) => (await findObservations(rowsSqlOf(tx), { id: input.id }))[0] ?? null,
        create: async (tx) => {
          const sql = rowsSqlOf(tx)
          const [record] = await loadTests(sql, [testId], { lock: true })
          if (!record) throw notFound('test')
          const method = methodOf(methods, record.methodKey)
          if (!method.steps.some(({ key }) => key === input.stepKey))
            throw invalidField('stepKey', `${method.name} has no step “${input.stepKey}”.`)
          if (!observationsOfForm[record.form]?.includes(input.choice))
            throw invalidField('choice', `This is not seen on a ${record.form}. Choose another, or say it in words.`)
          if (input.supersedes) refuseSuperseded(await findObservations(sql, { testIds: [testId] }), input)
          if (input.attachmentId) await attachments.assertIn(tx, input.attachmentId, 'attachmentId')
          const row = await insertObservation(sql, testId, input, tellTime(input.time, tx.at))
          tx.record({
            action: 'observation:create',
            subjectKind: 'observation',
            subjectId: input.id,
            projectId: record.projectId,
            topics: topicsOf(record),
            content: { attachment: input.attachmentId },
            rows: [row],
          })
          return (await findObservations(sql, { id: input.id }))[0]!
        },
      }),
  }
}

/** Looked at under the test's lock: of two corrections at once the second is told of the first. */
function refuseSuperseded(observations: readonly Observation[], sent: PostObservation): void {
  const named = observations.find(({ id, stepKey }) => id === sent.supersedes?.id && stepKey === sent.stepKey)
  if (!named) throw invalidField('supersedes', 'No such observation stands at this step. Look at the list again.')
  if (!named.superseded) return
  const sentence = 'This observation was corrected meanwhile. Look at the one that stands.'
  throw new AppError('conflict', sentence, {
    errors: [{ path: 'supersedes', message: sentence }],
    extra: { stored: named, sent },
  })
}
