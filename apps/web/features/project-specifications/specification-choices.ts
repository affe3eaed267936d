import type { Specification } from '@curebook/contract/specifications'

/**
 * What a project may be set on, what stands left out: this contract's own copies first, then what may be chosen everywhere, then
 * versions that others have followed. A contract may hold an older one.
 */
export function choicesOf(items: readonly Specification[], stands?: string): readonly Specification[] {
  const rank = ({ project, standing }: Specification) => (standing === 'superseded' ? 2 : project === null ? 1 : 0)
  return items
    .filter(({ id, standing }) => standing !== 'withdrawn' && id !== stands)
    .toSorted((a, b) => rank(a) - rank(b) || a.name.localeCompare(b.name) || b.version - a.version)
}

/**
 * What a design may be held against: what may be chosen everywhere, and versions that others have followed where the project or
 * the design stands on them. What was withdrawn stays where the design stands on it already.
 */
export function choicesOfDesign(
  items: readonly Specification[],
  { ofProject, ofDesign }: { readonly ofProject: string | undefined; readonly ofDesign: string | undefined },
): readonly Specification[] {
  return items.filter(
    ({ id, standing }) => standing === 'current' || id === ofDesign || (id === ofProject && standing !== 'withdrawn'),
  )
}

/** What a person picked, as far as it is offered; else what the project stands on. Empty where nothing is chosen. */
export function chosenOf(
  offered: readonly Pick<Specification, 'id'>[],
  { picked, ofProject }: { readonly picked: string | undefined; readonly ofProject: string | undefined },
): string {
  const stays = picked === '' || offered.some(({ id }) => id === picked)
  return (stays ? picked : ofProject) ?? ''
}
