/** Columns of the file, by their heads. The first three are needed; the others may be left out. */
export const importColumns = [
  'code',
  'kind',
  'name',
  'serial',
  'place',
  'capacity',
  'smallest step',
  'calibrated on',
  'due',
  'certificate',
  'passed',
  'factor',
  'factor unit',
  'measured area',
  'edition',
  'factor from',
] as const
export type ImportColumn = (typeof importColumns)[number]
