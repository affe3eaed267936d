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
