/** How a mix looks while it is stirred; words of the bench, common practice, no source. */
export const mixConsistencies = [
  { key: 'stiff', label: 'Stiff' },
  { key: 'creamy', label: 'Creamy' },
  { key: 'runny', label: 'Runny' },
  { key: 'segregating', label: 'Runny, fines float' },
] as const
export type MixConsistency = (typeof mixConsistencies)[number]['key']

/** How it broke, or that it had not when stirring stopped; words of the bench, common practice, no source. */
export const mixBreaks = [
  { key: 'gradual', label: 'Thickened slowly, then broke' },
  { key: 'sudden', label: 'Broke at once' },
  { key: 'lumps', label: 'Broke in lumps' },
  { key: 'not-broken', label: 'Not broken when stirring stopped' },
] as const
export type MixBreak = (typeof mixBreaks)[number]['key']
