/** An instant by the laboratory's wall clock, to the second where it has any: "2026-03-06 09:40", "2026-03-06 09:40:12". */
export function wallClockWords(zone: string, at: string): string {
  const words = new Date(at).toLocaleString('sv-SE', { timeZone: zone })
  return words.endsWith(':00') ? words.slice(0, -3) : words
}
