import type { ExpectedDay, ExpectedDays, SetExpectedDay } from '@curebook/contract/expected-days'
import type { Actor } from '#platform/actor'
import { createOnce, type Created } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, invalidField, notFound } from '#platform/problem'
import { rowsSqlOf } from '#platform/sql-rows'
import { findExpectedDays } from './expected-days.repository.ts'

export { findExpectedDays as expectedDaysIn } from './expected-days.repository.ts'
export type ExpectedDaysService = ReturnType<typeof createExpectedDaysService>

/** The day on which a project's report is expected: told to its client, and never changed without a reason they can read. */
export function createExpectedDaysService({ laboratory }: { laboratory: Laboratory }) {
  const list = (actor: Actor, projectId: string): Promise<ExpectedDays> =>
    laboratory.inLaboratory(actor, async (tx) => {
      await projectOf(tx, projectId)
      return { items: (await findExpectedDays(rowsSqlOf(tx), projectId)).map(withoutProject) }
    })

  const set = (actor: Actor, projectId: string, input: SetExpectedDay): Promise<Created<ExpectedDay>> =>
    createOnce(laboratory, actor, {
      subjectKind: 'expected-day',
      id: input.id,
      input: { ...input, projectId },
      find: async (tx) => {
        const found = (await findExpectedDays(rowsSqlOf(tx))).find(({ id }) => id === input.id)
        return found ? withoutProject(found) : null
      },
      create: async (tx) => {
        const { labId, membershipId: byId } = actor
        // Two who set a day at once follow one another; the second is told what the first said.
        await tx.prisma
          .$queryRaw`select id from project where lab_id = ${labId}::uuid and id = ${projectId}::uuid for update`
        const { clientId } = await projectOf(tx, projectId)
        const stands = (await findExpectedDays(rowsSqlOf(tx), projectId))[0]
        if ((stands?.id ?? null) !== input.after)
          throw new AppError(
            'changed-meanwhile',
            stands
              ? `Somebody else has set the day meanwhile: ${stands.day}. Look at it, then set it again if it is to change.`
              : 'No day stands for this project yet. Load the page again, then set it.',
          )
        await refuseDay(tx, input, stands)
        const { id, day } = input
        const reason = stands ? (input.reason ?? null) : null
        await tx.prisma.expectedDay.createMany({
          data: [
            { labId, id, projectId, clientId, day: new Date(day), supersedesId: input.after, reason, byId, at: tx.at },
          ],
        })
        tx.record({
          action: 'project:expect',
          subjectKind: 'expected-day',
          subjectId: id,
          projectId,
          clientId,
          topics: ['projects', `project:${projectId}`],
          content: { day, before: stands?.day ?? null, reason },
        })
        return withoutProject((await findExpectedDays(rowsSqlOf(tx), projectId))[0]!)
      },
    })

  return { list, set }
}

async function projectOf({ prisma, actor }: LaboratoryTransaction, id: string) {
  const project = await prisma.project.findUnique({ where: { labId_id: { labId: actor.labId, id } } })
  if (!project) throw notFound('project')
  return project
}

async function refuseDay(tx: LaboratoryTransaction, { day, reason }: SetExpectedDay, stands: ExpectedDay | undefined) {
  if (stands?.day === day) throw invalidField('day', 'This day stands already: choose another one.')
  if (stands && !reason) throw invalidField('reason', 'Say why the day changes: the client reads it.')
  if (day < (await laboratoryToday(tx)))
    throw invalidField('day', 'This day is past. Choose the day on which the report is expected now.')
}

/** As it is told under its project. */
export function withoutProject({ projectId: _, ...day }: ExpectedDay & { projectId: string }): ExpectedDay {
  return day
}
