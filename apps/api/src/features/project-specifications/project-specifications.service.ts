import type {
  PinnedSpecification,
  ProjectSpecifications,
  SetProjectSpecification,
} from '@curebook/contract/project-specifications'
import type { DesignState } from '@curebook/contract/projects'
import type { NamedVersion, Specification } from '@curebook/contract/specifications'
import type { SpecificationsService } from '#features/specifications/specifications.service'
import type { Actor } from '#platform/actor'
import { createOnce, type Created } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { personName } from '#platform/row-values'
import type { RowsSql } from '#platform/sql-rows'
import {
  findPin,
  findPins,
  findProjectOf,
  findStandingId,
  holdProject,
  insertPin,
  type PinRow,
} from './project-specifications.repository.ts'

export type ProjectSpecificationsService = ReturnType<typeof createProjectSpecificationsService>

/** Which version of a specification a project stands on. Its designs begin with it; a newer version is adopted by an act alone. */
export function createProjectSpecificationsService({
  laboratory,
  specifications,
}: {
  laboratory: Laboratory
  specifications: SpecificationsService
}) {
  const named = async (tx: LaboratoryTransaction, id: string): Promise<NamedVersion> =>
    nameOf((await specifications.readIn(tx, id))!)
  const pinOf = async (
    tx: LaboratoryTransaction,
    { id, specificationId, reason, by, at }: PinRow,
    nameOfOne = named,
  ): Promise<PinnedSpecification> => ({
    id,
    specification: await nameOfOne(tx, specificationId),
    reason,
    by: personName(by),
    at: at.toISOString(),
  })

  /** What a project stands on, inside another feature's transaction; null where none was set. */
  const standingIn = async (
    tx: LaboratoryTransaction,
    projectId: string,
    known?: Specification,
  ): Promise<NamedVersion | null> => {
    const id = await findStandingId(tx, projectId)
    if (id === null) return null
    return id === known?.id ? nameOf(known) : named(tx, id)
  }

  return {
    standingIn,
    /** The same for whoever makes or changes a design of the project: it stays until they are done. */
    holdIn: async (tx: LaboratoryTransaction, projectId: string): Promise<NamedVersion | null> => {
      await holdProject(tx, projectId, { toSet: false })
      return standingIn(tx, projectId)
    },

    /** @throws AppError `not-found` */
    read: (actor: Actor, projectId: string): Promise<ProjectSpecifications> =>
      laboratory.inLaboratory(actor, async (tx): Promise<ProjectSpecifications> => {
        const project = await findProjectOf(tx, projectId)
        if (!project) throw notFound('project')
        const rows = await findPins(tx, projectId)
        // Many designs are held against few specifications: each is read once.
        const known = new Map<string, NamedVersion>()
        const namedOnce: typeof named = async (_, id) => {
          const found = known.get(id) ?? (await named(tx, id))
          known.set(id, found)
          return found
        }
        const items: PinnedSpecification[] = []
        for (const row of rows) items.push(await pinOf(tx, row, namedOnce))
        const [stands] = items
        const designs = project.designs.flatMap(({ id, name, designRevisions: [newest] }) =>
          newest ? [{ designId: id, name, ...newest }] : [],
        )
        const others: ProjectSpecifications['others'] = []
        for (const { designId, name, number, state, specificationId, specificationReason: reason } of designs)
          if (stands && specificationId !== null && specificationId !== stands.specification.id)
            others.push({
              designId,
              name,
              revision: number,
              state: state as DesignState,
              specification: await namedOnce(tx, specificationId),
              reason,
            })
        return {
          items,
          ...(await sinceIn(tx, stands)),
          copies: (await specifications.copiesIn(tx, projectId)).map(nameOf),
          others,
        }
      }),

    /** Sets what the project stands on from now on; designs made earlier keep theirs. */
    set: (actor: Actor, projectId: string, input: SetProjectSpecification): Promise<Created<PinnedSpecification>> =>
      createOnce(laboratory, actor, {
        subjectKind: 'project-specification',
        id: input.id,
        input: { ...input, projectId },
        find: async (tx) => {
          const row = await findPin(tx, input.id)
          return row && pinOf(tx, row)
        },
        create: async (tx) => {
          // Two who set one at once follow one another; the second is told what the first said.
          await holdProject(tx, projectId, { toSet: true })
          const project = await findProjectOf(tx, projectId)
          if (!project) throw notFound('project')
          const [row] = await findPins(tx, projectId)
          const stands = row && (await pinOf(tx, row))
          refuseUnseen(input, stands)
          const chosen = await specifications.readToChooseIn(tx, input.specificationId)
          refuseChoice(input, { chosen, stands, projectId })
          const reason = stands ? (input.reason ?? null) : null
          const { id, specificationId } = input
          await insertPin(tx, { id, projectId, specificationId, supersedesId: input.after, reason })
          tx.record({
            action: 'project:pin',
            subjectKind: 'project-specification',
            subjectId: id,
            projectId,
            clientId: project.clientId,
            topics: [
              'projects',
              'specifications',
              `project:${projectId}`,
              ...project.designs.map((design) => `design:${design.id}`),
            ],
            content: { specification: specificationId, before: row?.specificationId ?? null, reason },
          })
          return pinOf(tx, (await findPin(tx, id))!)
        },
      }),
  }

  /** What has become of the one that stands: a newer version of its line, or its withdrawal. */
  async function sinceIn(
    tx: LaboratoryTransaction,
    stands: PinnedSpecification | undefined,
  ): Promise<Pick<ProjectSpecifications, 'standing' | 'newer' | 'withdrawn'>> {
    if (!stands) return { standing: null, newer: null, withdrawn: null }
    const { specification, versions, withdrawn } = await specifications.historyIn(tx, stands.specification.id)
    const { id, name, version, by, at, reason } = versions[0]!
    const changes = await specifications.changesIn(tx, { from: specification.id, to: id })
    return {
      standing: specification.standing,
      newer:
        withdrawn === null && version > specification.version ? { id, name, version, by, at, reason, changes } : null,
      withdrawn,
    }
  }
}

/** A client's own projects with what each stands on, by name and version: the database shows them nothing more of it. */
export async function ownSpecificationsIn(
  sql: RowsSql,
): Promise<readonly { projectId: string; name: string; version: number }[]> {
  return sql.rows('select project_id as "projectId", name, version from client_specifications()', [])
}

function nameOf({ id, name, version }: NamedVersion): NamedVersion {
  return { id, name, version }
}

function refuseUnseen(sent: SetProjectSpecification, stands: PinnedSpecification | undefined): void {
  if ((stands?.id ?? null) === sent.after) return
  throw new AppError(
    'conflict',
    stands
      ? `${stands.by.name} has set “${stands.specification.name}”, version ${stands.specification.version}, meanwhile. Look at it, then set another one if it is to change.`
      : 'No specification stands for this project yet. Load the page again, then set it.',
    { extra: { stored: stands ?? null, sent } },
  )
}

function refuseChoice(
  { specificationId, reason }: SetProjectSpecification,
  {
    chosen,
    stands,
    projectId,
  }: { chosen: Specification | null; stands: PinnedSpecification | undefined; projectId: string },
): void {
  if (!chosen)
    throw invalidField(
      'specificationId',
      'There is no such specification in this laboratory: choose one of the list, or adopt one first.',
    )
  const fault = faultOfChoice(chosen, projectId)
  if (fault) throw invalidField('specificationId', fault)
  if (stands?.specification.id === specificationId)
    throw invalidField('specificationId', 'This version stands for the project already: choose another one.')
  if (stands && !reason)
    throw invalidField('reason', 'Say why another specification stands for the project from now on.')
}

/** Why a project, or a design of it, may not take a specification; null where it may. */
export function faultOfChoice({ name, standing, project }: Specification, projectId: string): string | null {
  if (standing === 'withdrawn') return `“${name}” was withdrawn: choose one that stands, or adopt another.`
  if (project !== null && project.id !== projectId)
    return `“${name}” is the copy of another contract, ${project.name}: choose one of this project, or one for every project.`
  return null
}
