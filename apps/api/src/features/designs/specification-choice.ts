import type { Design } from '@curebook/contract/designs'
import type { FieldError } from '@curebook/contract/problem'
import type { NamedVersion, Specification } from '@curebook/contract/specifications'
import { faultOfChoice } from '#features/project-specifications/project-specifications.service'

/** The specification of a design, and why it is another one than the project stands on. */
export type SpecificationChoice = {
  readonly specificationId: string | undefined
  readonly specificationReason: string | null
}

/**
 * What a design is held against: what was chosen, else what it is held against already, else what its project stands on. A
 * reason is kept only where that is another one than the project's.
 */
export function choiceOf(
  input: { readonly specificationId?: string; readonly specificationReason?: string },
  own: NamedVersion | null,
  before?: Pick<Design, 'specification' | 'specificationReason'>,
): SpecificationChoice {
  const specificationId = input.specificationId ?? before?.specification.id ?? own?.id
  if (own === null || specificationId === own.id) return { specificationId, specificationReason: null }
  const kept = before && before.specification.id === specificationId ? before.specificationReason : null
  return { specificationId, specificationReason: input.specificationReason || kept }
}

/** What is missing in a choice that is made now. */
export function faultsOfSpecificationChoice(
  { specificationId, specificationReason }: SpecificationChoice,
  own: NamedVersion | null,
): FieldError[] {
  if (specificationId === undefined)
    return [
      {
        path: 'specificationId',
        message: 'No specification stands for this project yet: choose one for the design, or set the project’s first.',
      },
    ]
  if (own === null || specificationId === own.id || specificationReason) return []
  return [
    {
      path: 'specificationReason',
      message: `The project stands on “${own.name}”, version ${own.version}: say why this design takes another one.`,
    },
  ]
}

/** Why a design of a project may not be held against what was chosen; null was not found. */
export function faultsOfSpecification(chosen: Specification | null, projectId: string): FieldError[] {
  const message =
    chosen === null
      ? 'There is no such specification in this laboratory: choose one of the list, or adopt one first.'
      : faultOfChoice(chosen, projectId)
  return message === null ? [] : [{ path: 'specificationId', message }]
}
