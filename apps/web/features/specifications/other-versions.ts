import type { EditSpecification, SpecificationHistory } from '@curebook/contract/own-specifications'
import type { Specification } from '@curebook/contract/specifications'
import { changesBetween, type SpecificationChange } from '@curebook/trade/specification/specification-changes'
import type { Specification as Rules } from '@curebook/trade/specification/specification'
import { ApiProblem } from '#lib/api-problem.ts'

export type Version = SpecificationHistory['versions'][number]
type Sent = {
  readonly status: 'idle' | 'pending' | 'success' | 'error'
  readonly variables: Pick<EditSpecification, 'id'> | undefined
}

/** Whether the server refused because something else stands: another version, or other content under the same id. */
export const isConflict = (error: unknown): boolean => error instanceof ApiProblem && error.code === 'conflict'

/**
 * Versions that came on top of the one that is open in a form, the oldest first. What the form itself is sending or has
 * stored is none of them, unless its answer was lost or refused: then it must be seen that it stands.
 */
export function otherVersions(
  opened: Pick<Specification, 'version'>,
  history: Pick<SpecificationHistory, 'versions'>,
  sent: Sent,
): readonly Version[] {
  const own = sent.status === 'pending' || sent.status === 'success' ? sent.variables?.id : undefined
  return history.versions.filter(({ id, version }) => version > opened.version && id !== own).toReversed()
}

/** What was typed, told as the history tells a version: against the version that the form was opened with. */
export function changesSent(opened: Specification, sent: EditSpecification): readonly SpecificationChange[] {
  const kept = { usValue: null, usUnit: null, alsoPublished: [], changedFrom: null, changeReason: null }
  // The contract mirrors the trade's specification; it only names its words more widely.
  const before = opened as unknown as Rules
  return changesBetween(before, {
    ...before,
    name: sent.name,
    source: sent.source,
    aggregateType: sent.aggregateType,
    traffic: sent.traffic,
    residualBand: { ...before.residualBand, ...sent.residualBand },
    gradationBand: sent.gradationBand,
    limits: sent.limits.map((limit) => ({ ...limit, ...kept })),
  })
}
