import type { Design } from './designs.ts'

/** Whether a design is held against another specification, or another version of it, than its project stands on. */
export function differsFromProject({
  specification,
  projectSpecification,
}: Pick<Design, 'specification' | 'projectSpecification'>): boolean {
  return projectSpecification !== null && projectSpecification.id !== specification.id
}

/** That difference in words, as the review and the report say it; null where there is none. */
export function specificationDifference(
  design: Pick<Design, 'specification' | 'projectSpecification' | 'specificationReason'>,
): string | null {
  const { specification, projectSpecification: own, specificationReason } = design
  if (own === null || !differsFromProject(design)) return null
  const named = ({ name, version }: { name: string; version: number }) => `“${name}”, version ${version}`
  const why =
    specificationReason === null ? 'The project’s was set after this design’s.' : `Why: ${specificationReason}`
  return `Held against ${named(specification)}; the project stands on ${named(own)}. ${why}`
}
