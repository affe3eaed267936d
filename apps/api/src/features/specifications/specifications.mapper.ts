import type { Specification } from '@curebook/contract/specifications'
import type { SpecificationRow } from './specifications.repository.ts'

/** What is stored as one canonical text: the whole specification but its name and number. */
export type SpecificationText = Omit<Specification, 'id' | 'key' | 'revision' | 'name' | 'createdAt'>

export function toSpecification({ id, key, revision, name, limits, at }: SpecificationRow): Specification {
  const text = JSON.parse(limits) as SpecificationText
  return { id, key, revision, name, createdAt: at.toISOString(), ...text }
}
