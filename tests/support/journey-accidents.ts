import { adhesion, oneHour, rowsOf, type WeighedRow } from './journey-design.ts'

/**
 * The design as it happened: a disc whose felt tore and the spare that stands for it, a spare not needed, a strip that
 * cracked. What the clean design calls disc 10-2 is the spare 10-4. All invented.
 */
export function rowsAsHappened(test: string): readonly WeighedRow[] {
  const clean = rowsOf(test)
  if (test === adhesion)
    return inOrder([...clean, { form: 'strip', label: '12-1', aggregate: '300.0', emulsion: '36.0' }])
  if (test !== oneHour) return clean
  const [first] = clean.filter(({ label }) => label === '10-2')
  return inOrder([
    ...clean.filter(({ label }) => label !== '10-2'),
    { form: 'disc', label: '10-2', aggregate: '800.1', emulsion: '79.3', w1: '759.1' },
    { ...first!, label: '10-4' },
    { form: 'disc', label: '12-4', aggregate: '800.0', emulsion: '95.9', w1: '764.2' },
  ])
}

function inOrder(rows: readonly WeighedRow[]): readonly WeighedRow[] {
  return [...rows].sort((a, b) => (a.label < b.label ? -1 : 1))
}

/** What a reader looks for, in the review and in the report: kind of the point, words in it. */
export const accidents = [
  ['void', 'Felt tore at the clamp; stopped at 40 s'],
  ['void', 'Plate bent, strip cracked; stopped at 310 cycles'],
  ['void', 'Spare, not needed'],
  ['deviation', 'A longer soak can only raise the loss'],
  ['deviation', 'Two degrees for a night'],
  ['part-change', 'H-08'],
  ['correction', '737.7'],
  ['correction', '795.7'],
  ['odd', '12.37 % as weighed'],
  ['odd', 'heavier than the middle of its series'],
] as const

/** What the engineer recommends, field by field. */
export const recommendation = {
  'Recommended emulsion content, in per cent of dry aggregate': '12.0',
  'Tolerance, in per cent residual binder to either side': '0.5',
  'Added water from, in per cent of dry aggregate': '9',
  'Added water to, in per cent of dry aggregate': '11',
  'Mineral filler from, in per cent of dry aggregate': '0.5',
  'Mineral filler to, in per cent of dry aggregate': '1.5',
  'Set-control additive from, in per cent of dry aggregate': '0.1',
  'Set-control additive to, in per cent of dry aggregate': '0.4',
  'Reason for this content': '7.0 to 8.0 lies inside 6.9 to 8.3, below the midpoint for heavy traffic.',
}
