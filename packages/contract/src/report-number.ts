/** "TH-2026-0007", and for a later issue "TH-2026-0007, amendment 1". */
export function shownNumber(number: string, amendment: number): string {
  return amendment === 0 ? number : `${number}, amendment ${amendment}`
}
