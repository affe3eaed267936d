import type { SpecimenRow } from '@curebook/contract/designs'
import type { DesignState } from '@curebook/contract/projects'
import { type DecimalSign, displayDigits, displayQuantity } from '@curebook/trade/quantity/display'
import type { ReplicateGroup } from '#features/range/replicates.service'
import type { OddFinding } from './odd-points.ts'
import type { FoundPoint } from './review-points.ts'

type Words = { readonly sign: DecimalSign }
type Exceeding = ReplicateGroup['outliers'][number] & {
  readonly suspect: NonNullable<ReplicateGroup['outliers'][number]['suspect']>
}

/** What `findSuspicions` says of a specimen already: it is far from its replicates. */
const saidOf = /^(swapped|transposed|odd):/

/**
 * Replicates further apart than the method's repeatability lets expect, and results further out than chance explains: one
 * point a group, about the result that lies out. A specimen that looks odd already by its weighings is not named again, nor
 * is one result in several units or forms.
 */
export function scatterPoints(
  groups: readonly ReplicateGroup[],
  specimens: readonly SpecimenRow[],
  odd: readonly OddFinding[],
  words: Words,
): readonly FoundPoint[] {
  const said = new Set(odd.filter(({ key }) => saidOf.test(key)).map(({ specimen }) => specimen.testId))
  const named = new Set<string>()
  return groups.flatMap((group): FoundPoint[] => {
    const out = exceedingOf(group).filter(({ suspect: { testId } }) => {
      if (said.has(testId)) return false
      return !named.has(`${group.methodKey} ${testId}`)
    })
    out.forEach(({ suspect }) => named.add(`${group.methodKey} ${suspect.testId}`))
    const tooFar = group.acceptable?.within === false
    if (!tooFar && out.length === 0) return []
    const [first] = out
    const specimen = specimens.find(({ testId }) => testId === first?.suspect.testId)
    return [
      {
        key: `odd:scatter:${group.key}:${group.results.map(({ value }) => value).join('/')}`,
        kind: 'odd',
        name: specimen ? `${specimen.label} (${specimen.code}), ${specimen.methodName}` : null,
        code: specimen?.code ?? null,
        testId: specimen?.testId ?? null,
        sentence: [
          `${group.label}${contentWords(group, words)}:`,
          ...(tooFar ? [rangeWords(group, words)] : []),
          ...(out.length > 0 ? [outlierWords(group, out, words)] : []),
        ].join(' '),
        blocking: false,
      },
    ]
  })
}

function exceedingOf({ outliers }: ReplicateGroup): readonly Exceeding[] {
  return outliers.flatMap((one) => (one.exceeds && one.suspect ? [{ ...one, suspect: one.suspect }] : []))
}

function contentWords({ emulsionPercent }: ReplicateGroup, { sign }: Words): string {
  return emulsionPercent === null ? '' : ` at ${displayDigits(emulsionPercent, { sign })} % emulsion`
}

function rangeWords(group: ReplicateGroup, { sign }: Words): string {
  const { n, range, unit, repeatability, acceptable, ofSample, displayDecimals: decimals } = group
  const quantity = (digits: string) => displayQuantity(digits, unit, { decimals, sign })
  const r = repeatability!
  const of = `r = ${displayQuantity(r.value, r.unit, { sign })}, ${r.source}`
  const parts = ofSample ? ' This holds for parts of one sample.' : ''
  return `${n} results span ${quantity(range)}; by the repeatability of the method ${quantity(acceptable!.limit)} is acceptable for so many (${of}).${parts}`
}

function outlierWords(group: ReplicateGroup, out: readonly Exceeding[], { sign }: Words): string {
  // The two tests may name two ends: each is then said by itself.
  const suspects = [...new Map(out.map(({ suspect }) => [suspect.testId, suspect])).values()]
  const sentences = suspects.map((suspect) => {
    const tests = out
      .filter((one) => one.suspect.testId === suspect.testId)
      .map(
        ({ test, ratio, statistic, critical }) =>
          `${test} ${ratio} = ${displayDigits(statistic, { decimals: 4, sign })} over ${displayDigits(critical, { decimals: 4, sign })}`,
      )
    const value = displayQuantity(suspect.value, group.unit, { decimals: group.displayDecimals, sign })
    return `${value} of ${suspect.label} (${suspect.code}) lies further out of ${group.n} results than chance explains (${tests.join('; ')}; two-sided, ${out[0]!.significancePercent} %).`
  })
  return `${sentences.join(' ')} It counts until a cause is found and recorded.`
}

/**
 * Of an approved revision, what had a word before its approval alone: scatter and few tests that are reckoned since, from the
 * same record, are no open point of it. Figures that were put right afterwards are told as such.
 */
export function reckonedOfRevision(
  points: readonly FoundPoint[],
  state: DesignState,
  acknowledged: readonly { readonly pointKey: string }[],
): readonly FoundPoint[] {
  if (state !== 'approved') return points
  return points.filter(({ key }) => acknowledged.some(({ pointKey }) => pointKey === key))
}
