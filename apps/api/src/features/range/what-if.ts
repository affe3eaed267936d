import type { WhatIf } from '@curebook/contract/range'
import { acceptableRange } from '@curebook/trade/design/acceptable-range'
import { withoutTests } from '@curebook/trade/design/left-out'
import { invalidField } from '#platform/problem'
import type { DesignRange } from './design-range.ts'

/** A range computed again without some specimens, and which they are. One that does not count cannot be left out. */
export function leavingOut(
  computed: DesignRange,
  testIds: readonly string[],
): { readonly computed: DesignRange; readonly without: WhatIf['without'] } {
  const without = testIds.map((testId, index) => {
    for (const { label: curve, points } of computed.input.curves) {
      const point = points.find((candidate) => candidate.testId === testId)
      if (point) return { testId, code: point.code, label: point.label, curve }
    }
    throw invalidField(
      `without.${index}`,
      'This specimen counts in no curve of this revision, so that it cannot be left out. Choose one whose result counts.',
    )
  })
  const input = withoutTests(computed.input, new Set(testIds))
  return { computed: { ...computed, input, range: acceptableRange(input) }, without }
}
