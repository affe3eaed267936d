import type { Load } from '@curebook/contract/loads'

/**
 * The specimens to choose a check specimen from: those that are one already, else the richest and last put in first, which
 * dry last. Common practice, no source.
 */
export function checkChoices({ specimens, checks }: Pick<Load, 'specimens' | 'checks'>) {
  const begun = specimens.filter(({ testId }) => checks.some((check) => check.testId === testId))
  if (begun.length >= 2) return begun
  const others = specimens
    .filter(({ testId }) => begun.every((one) => one.testId !== testId))
    .toSorted(
      (one, other) =>
        Number(other.emulsionPercent ?? 0) - Number(one.emulsionPercent ?? 0) ||
        Date.parse(other.since) - Date.parse(one.since),
    )
  return [...begun, ...others]
}
