/** From this day of its life the residue of an emulsion is tested again: common practice, no source. */
export const retestResidueFromDay = { value: 14, source: 'common practice, no source' } as const

/** Milliseconds of a day, exactly. */
const DAY = 86_400_000

/** Whole days from the day an emulsion was made, day 0, to today; days as `2026-03-02`. */
export function emulsionAgeDays(madeOn: string, today: string): number {
  // Midnights of UTC lie whole days apart.
  return (Date.parse(`${today}T00:00:00Z`) - Date.parse(`${madeOn}T00:00:00Z`)) / DAY
}
