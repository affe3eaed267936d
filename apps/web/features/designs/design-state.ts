import type { Design, DesignSummary } from '@curebook/contract/designs'

/** In the order in which a design goes through them. */
export const designStates = ['draft', 'in-work', 'in-review', 'sent-back', 'approved'] as const

/** The rows of a state, all of them without one. */
export function ofState<Row extends Pick<DesignSummary, 'state'>>(rows: readonly Row[], state: string): readonly Row[] {
  return state === '' ? rows : rows.filter((row) => row.state === state)
}

/** Settings, series and entered values change while the newest revision is neither in review nor approved. */
export function mayChange(design: Pick<Design, 'state' | 'revision' | 'revisions'>): boolean {
  return isNewest(design) && design.state !== 'in-review' && design.state !== 'approved'
}

/** Results of the panel are entered until the newest revision is approved. */
export function mayEnterResults(design: Pick<Design, 'state' | 'revision' | 'revisions'>): boolean {
  return isNewest(design) && design.state !== 'approved'
}

export function isNewest({ revision, revisions }: Pick<Design, 'revision' | 'revisions'>): boolean {
  return revisions.every(({ number }) => number <= revision)
}
