import type { PanelRow } from '@curebook/contract/range'

type Row = Pick<PanelRow, 'verdict'>
const order: readonly PanelRow['verdict'][] = ['fail', 'undecided', 'pass']

/** What was judged, the worst first, each in the order of the panel; what was not judged stands in its points. */
export function decisiveRows<Of extends Row>(panel: readonly Of[]): readonly Of[] {
  return panel
    .filter(({ verdict }) => order.includes(verdict))
    .toSorted((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict))
}

/** The content at which all of these were judged, in words, where it is one: "12" and "12.0" are. Null where they differ. */
export function sharedContent(rows: readonly Pick<PanelRow, 'at'>[]): string | null {
  const said = rows.flatMap(({ at }) => (at === null ? [] : [at]))
  const contents = new Set(said.map((at) => Number((/\d+(?:[.,]\d+)?/.exec(at)?.[0] ?? '').replace(',', '.'))))
  return contents.size === 1 ? (said[0] ?? null) : null
}
