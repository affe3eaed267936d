import type { Reading } from '@curebook/contract/bench'
import type { SpecimenRow } from '@curebook/contract/designs'
import { apartFromTarget } from '@curebook/trade/design/as-weighed'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration, WeighedPair } from '@curebook/trade/procedure/declaration'
import { declaredReading } from '@curebook/trade/procedure/declared-reading'
import { apartFromSeries } from '@curebook/trade/procedure/series-spread'
import { findSuspicions } from '@curebook/trade/procedure/suspicions'
import { countingSpecimens, type WorkRecord } from '#features/bench/work-record.service'

/** Something odd about one specimen that counts, in a sentence of its own. */
export type OddFinding = { readonly key: string; readonly specimen: SpecimenRow; readonly text: string }

/**
 * What looks odd among the specimens that count: a difference far from its replicates, a specimen heavier or lighter than
 * its series, a mix poured apart from its target, a reading kept after the question. Said, never acted on.
 */
export function oddFindings(work: WorkRecord, methods: readonly MethodDeclaration[]): readonly OddFinding[] {
  const counting = countingSpecimens(work)
  const keys = [...new Set(counting.map(({ methodKey }) => methodKey))]
  return [
    ...keys.flatMap((key) => {
      const pair = methodByKey(methods, key)?.pair
      return pair
        ? weighedApart(
            pair,
            counting.filter(({ methodKey }) => methodKey === key),
            work.readings,
          )
        : []
    }),
    ...pouredApart(counting, work),
    ...keptAfterQuestion(counting, work, methods),
  ]
}

function weighedApart(
  pair: WeighedPair,
  specimens: readonly SpecimenRow[],
  readings: readonly Reading[],
): readonly OddFinding[] {
  const valueAt = (testId: string, slot: WeighedPair['before']) =>
    readings.find(
      (reading) =>
        reading.testId === testId && reading.stepKey === slot.step && reading.key === slot.key && !reading.superseded,
    )
  const first = specimens.flatMap((specimen) => {
    const before = valueAt(specimen.testId, pair.before)
    return before?.value ? [{ specimen, id: specimen.testId, readingId: before.id, before: before.value }] : []
  })
  const both = first.flatMap((one) => {
    const after = valueAt(one.id, pair.after)
    return after?.value
      ? [{ ...one, code: one.specimen.code, group: one.specimen.mixId ?? '', after: after.value }]
      : []
  })
  // With the reading: another weighing of the same specimen is another question.
  return [
    ...findSuspicions(pair, both).flatMap(({ test, kind, text }) => {
      const one = both.find(({ id }) => id === test)
      return one ? [{ key: `${kind}:${one.readingId}`, specimen: one.specimen, text }] : []
    }),
    ...apartFromSeries(pair, first).flatMap(({ id, text }) => {
      const one = first.find((candidate) => candidate.id === id)
      return one ? [{ key: `series:${one.readingId}`, specimen: one.specimen, text }] : []
    }),
  ]
}

function pouredApart(specimens: readonly SpecimenRow[], { results }: WorkRecord): readonly OddFinding[] {
  return specimens.flatMap((specimen) => {
    const content = results.find(({ testId, key }) => testId === specimen.batchTestId && key === 'emulsion-content')
    const { emulsionPercent } = specimen
    const text = content?.value && emulsionPercent ? apartFromTarget(emulsionPercent, content.value) : null
    return content && text ? [{ key: `poured:${content.id}`, specimen, text: `${text}.` }] : []
  })
}

function keptAfterQuestion(
  specimens: readonly SpecimenRow[],
  { readings }: WorkRecord,
  methods: readonly MethodDeclaration[],
): readonly OddFinding[] {
  return readings.flatMap(({ id, testId, stepKey, key, typed, unit, confirmedOdd, superseded, supersedes, by }) => {
    // A correction is a point of its own.
    if (!confirmedOdd || superseded || supersedes !== null) return []
    const specimen = specimens.find((one) => one.testId === testId || one.batchTestId === testId)
    if (!specimen) return []
    const method = methodByKey(methods, specimen.testId === testId ? specimen.methodKey : 'batch')
    const label = method && declaredReading(methods, method, { step: stepKey, key })?.label
    const value = [typed, unit].filter(Boolean).join(' ')
    return [{ key: `kept:${id}`, specimen, text: `${label ?? key} ${value}, kept by ${by.name} after being asked.` }]
  })
}
