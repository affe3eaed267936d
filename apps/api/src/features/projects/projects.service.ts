import type { CreateProject, UpdateProject } from '@curebook/contract/projects'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import { editOf, repeatedEdit } from '#platform/edit'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { pageFrom } from '#platform/page'
import { invalidField, notFound } from '#platform/problem'
import { toProject } from './projects.mapper.ts'
import { findClientName, findProject, findProjects, insertProject, updateProject } from './projects.repository.ts'

export type ProjectsService = ReturnType<typeof createProjectsService>

/** Work for a client: what its designs, specifications and reports belong to. */
export function createProjectsService({ laboratory }: { laboratory: Laboratory }) {
  const stored = async (tx: LaboratoryTransaction, id: string) => {
    const row = await findProject(tx, id)
    return row && toProject(row)
  }
  const existing = async (tx: LaboratoryTransaction, id: string) => {
    const project = await stored(tx, id)
    if (!project) throw notFound('project')
    return project
  }

  return {
    list: (actor: Actor, query: { cursor?: string; limit: number }) =>
      laboratory.inLaboratory(actor, async (tx) => {
        const { rows, next } = pageFrom(await findProjects(tx, query), query.limit, ({ createdAt, id }) => ({
          at: createdAt,
          id,
        }))
        return { items: rows.map(toProject), next }
      }),

    read: (actor: Actor, id: string) => laboratory.inLaboratory(actor, (tx) => existing(tx, id)),

    create: (actor: Actor, input: CreateProject) =>
      createOnce(laboratory, actor, {
        subjectKind: 'project',
        id: input.id,
        input,
        find: (tx) => stored(tx, input.id),
        create: async (tx) => {
          if (!(await findClientName(tx, input.clientId)))
            throw invalidField(
              'clientId',
              'There is no such client in this laboratory: choose one of the list, or enter it first.',
            )
          await insertProject(tx, input)
          const project = await existing(tx, input.id)
          tx.record({
            action: 'project:create',
            subjectKind: 'project',
            subjectId: input.id,
            projectId: input.id,
            clientId: input.clientId,
            topics: ['projects', `project:${input.id}`],
            content: { ...input, code: project.code },
          })
          return project
        },
      }),

    /** @param version the one that the edit starts from (If-Match) */
    update: (actor: Actor, id: string, input: UpdateProject, version: number) =>
      laboratory.inLaboratory(actor, async (tx) => {
        const edit = editOf({ subjectKind: 'project', subjectId: id, action: 'project:update' }, version, input)
        const before = await existing(tx, id)
        if (!(await updateProject(tx, id, version, input))) return repeatedEdit(tx, edit, await existing(tx, id))
        const after = await existing(tx, id)
        const words = ({ name, reportTo, copiesTo, version }: typeof after) => ({
          name,
          reportTo,
          copiesTo,
          version: String(version),
        })
        tx.record({
          ...edit,
          projectId: id,
          clientId: before.clientId,
          topics: ['projects', `project:${id}`],
          content: { before: words(before), after: words(after) },
        })
        return after
      }),
  }
}
