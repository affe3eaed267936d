import type { EditionParameters } from './declaration.ts'

/** Parameter of an edition: how many tests at one content, or of one sample, its standard or practice asks for. */
export const replicatesParameter = 'replicates'

/** How many tests an edition asks for; null where it names none, as those made before the parameter do. */
export function askedReplicates(parameters: EditionParameters): number | null {
  const asked = Number(parameters[replicatesParameter]?.value ?? Number.NaN)
  return Number.isSafeInteger(asked) && asked > 0 ? asked : null
}
