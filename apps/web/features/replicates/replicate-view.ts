import type { OutlierTest, ReplicateGroup } from '@curebook/contract/replicates'

/** Results that a test for an outlier names, each once with the tests that name it. */
export function suspectsOf({ outliers }: Pick<ReplicateGroup, 'outliers'>) {
  const named = new Map<string, { suspect: NonNullable<OutlierTest['suspect']>; tests: string[] }>()
  for (const { exceeds, suspect, test } of outliers) {
    if (!exceeds || suspect === null) continue
    const one = named.get(suspect.testId) ?? { suspect, tests: [] }
    one.tests.push(test)
    named.set(suspect.testId, one)
  }
  return [...named.values()]
}

/** Repeatabilities that the groups are held by, each once with what it is of. */
export function repeatabilitiesOf(groups: readonly ReplicateGroup[]) {
  const held = groups.flatMap(({ repeatability, label }) => (repeatability ? [{ label, ...repeatability }] : []))
  return held.filter(
    (one, at) => held.findIndex(({ label, value }) => label === one.label && value === one.value) === at,
  )
}

/** Names of the methods of which no result here has a repeatability, or whose tests hold different ones. */
export function withoutRepeatability(
  groups: readonly ReplicateGroup[],
  why: NonNullable<ReplicateGroup['noRepeatability']>,
): readonly string[] {
  const held = new Set(groups.flatMap(({ repeatability, methodKey }) => (repeatability ? [methodKey] : [])))
  const without = groups.filter(({ noRepeatability, methodKey }) => noRepeatability === why && !held.has(methodKey))
  return [...new Set(without.map(({ methodName }) => methodName))]
}
