import type { Design } from '@curebook/contract/designs'
import { specificationDifference } from '@curebook/contract/specification-difference'
import type { FoundPoint } from './review-points.ts'

/**
 * A design held against another specification than its project stands on: whoever signs has seen it. What the project stands on
 * after an approval is no point of that approval any more, unless the same was settled before it.
 */
export function specificationPoint(
  design: Pick<Design, 'state' | 'specification' | 'projectSpecification' | 'specificationReason'>,
  acknowledged: readonly { readonly pointKey: string }[],
): FoundPoint[] {
  const sentence = specificationDifference(design)
  if (sentence === null) return []
  // With both: a word on one pair does not settle another.
  const key = `specification:${design.specification.id}:${design.projectSpecification?.id}`
  if (design.state === 'approved' && acknowledged.every(({ pointKey }) => pointKey !== key)) return []
  return [{ key, kind: 'specification', sentence, name: null, code: null, testId: null, blocking: false }]
}
