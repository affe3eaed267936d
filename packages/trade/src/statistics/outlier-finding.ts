import { percentWords } from './values.ts'

/** Which end is looked at. `two-sided` is for whoever chose the end after seeing the results. */
export type OutlierSides = 'high' | 'low' | 'two-sided'

/** What an outlier test says. It never leaves a result out: that takes a cause, and a person (ASTM E178). */
export type OutlierFinding = {
  readonly test: 'Grubbs' | 'Dixon'
  /** "T" of Grubbs, or Dixon's ratio "r10", "r11", "r21", "r22". */
  readonly ratio: string
  readonly sides: OutlierSides
  readonly n: number
  readonly significance: number
  /** Place in the list as given and digits as given; null when all results are the same. */
  readonly suspect: { readonly index: number; readonly value: string } | null
  readonly statistic: string
  readonly critical: string
  /** The statistic lies above its critical value. */
  readonly exceeds: boolean
  readonly sentence: string
}

export function outlierSentence(finding: Omit<OutlierFinding, 'sentence'>): string {
  const { test, suspect, exceeds, sides, significance } = finding
  if (suspect === null) return `All results are the same: the ${test} test finds nothing.`
  const by = `${test} test, ${sides === 'two-sided' ? sides : 'one-sided'}, ${percentWords(significance)}`
  return exceeds
    ? `${suspect.value} lies further out than chance explains (${by}). It stays until a cause is found and recorded.`
    : `${suspect.value} lies no further out than chance explains (${by}).`
}
