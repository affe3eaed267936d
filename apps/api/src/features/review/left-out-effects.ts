import type { SpecimenRow } from '@curebook/contract/designs'
import { leftOut } from '@curebook/trade/design/left-out'
import type { RangeContext } from '#features/range/range.service'
import type { FoundPoint } from './review-points.ts'

/**
 * Says beside each point that is about one specimen what the range would be without it. A specimen that stands on no curve
 * says so; points about no specimen say nothing.
 */
export function withLeftOutEffects(
  points: readonly FoundPoint[],
  specimens: readonly SpecimenRow[],
  { input, range }: Pick<RangeContext['computed'], 'input' | 'range'>,
): readonly FoundPoint[] {
  const effects = new Map<string, string>()
  const effectOf = (testId: string) => {
    const known = effects.get(testId)
    if (known !== undefined) return known
    const effect = leftOut(input, range, testId)?.sentence ?? 'It does not count in the range.'
    effects.set(testId, effect)
    return effect
  }
  return points.map((point) => {
    const specimen = specimens.find(
      ({ testId, batchTestId }) => testId === point.testId || batchTestId === point.testId,
    )
    return specimen ? { ...point, effect: effectOf(specimen.testId) } : point
  })
}
