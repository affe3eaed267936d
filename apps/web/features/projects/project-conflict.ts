import type { Project, UpdateProject } from '@curebook/contract/projects'
import { ApiProblem } from '#lib/api-problem.ts'

const edited = ['name', 'reportTo', 'copiesTo'] as const
export type EditedField = (typeof edited)[number]

/** The project as it stands now, where an edit was refused because somebody changed it meanwhile. */
export function storedMeanwhile(error: unknown): Project | undefined {
  if (!(error instanceof ApiProblem) || error.status !== 412) return undefined
  return error.extra.stored as Project | undefined
}

/** The fields in which what stands now and what was typed are not the same, each with both texts. */
export function differencesOf(
  stored: Pick<Project, EditedField>,
  typed: UpdateProject,
): readonly { readonly field: EditedField; readonly stored: string; readonly typed: string }[] {
  return edited
    .map((field) => ({ field, stored: stored[field], typed: typed[field] ?? stored[field] }))
    .filter((pair) => pair.stored !== pair.typed)
}
