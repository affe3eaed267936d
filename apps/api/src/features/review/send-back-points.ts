import type { ReviewPoint } from '@curebook/contract/review'
import type { SignedSpecimen } from '@curebook/contract/signed-content'
import { invalidField } from '#platform/problem'

/** What was sent back: how it was named, and in words as it stood then. */
export type SentBackPoint = { readonly key: string; readonly text: string }

/**
 * What the named points are: of the review, a specimen by its code, or the recommendation.
 * @throws AppError `invalid-input` on `points` when something is named that the revision does not have
 */
export function sentBackPoints(
  keys: readonly string[],
  {
    points,
    specimens,
  }: {
    points: readonly Pick<ReviewPoint, 'key' | 'sentence'>[]
    specimens: readonly Pick<SignedSpecimen, 'code' | 'label' | 'method'>[]
  },
): readonly SentBackPoint[] {
  return [...new Set(keys)].map((key) => {
    if (key === 'recommendation') return { key, text: 'The recommendation' }
    const point = points.find((one) => one.key === key)
    if (point) return { key, text: point.sentence }
    const specimen = specimens.find(({ code }) => code === key)
    if (specimen) return { key, text: `${specimen.label} (${specimen.code}), ${specimen.method}` }
    throw invalidField(
      'points',
      `“${key}” is no point of this review and no code of its specimens. Look at the list again, and at the code.`,
    )
  })
}

/** As it is kept and read again; what was kept as a name alone stays one. */
export function sentBackTexts(kept: string): string[] {
  const points = JSON.parse(kept) as readonly (string | SentBackPoint)[]
  return points.map((point) => (typeof point === 'string' ? point : point.text))
}
