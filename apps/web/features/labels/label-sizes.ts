/** Sizes of label that printers hold, in mm: sheets of common rolls. Common practice, no source. */
export const labelSizes = [
  { key: '62x29', width: 62, height: 29 },
  { key: '62x100', width: 62, height: 100 },
  { key: '100x50', width: 100, height: 50 },
] as const
export type LabelSize = (typeof labelSizes)[number]

export function sizeOf(key: string): LabelSize {
  return labelSizes.find((size) => size.key === key) ?? labelSizes[0]
}

/** The paper is the label itself, with nothing around it: what is printed has its true size where the printer does not scale. */
export function paperRule({ width, height }: LabelSize): string {
  return `@media print { @page { size: ${width}mm ${height}mm; margin: 0 } html, body, main { margin: 0 !important; padding: 0 !important } .only-print { display: none !important } }`
}

/** How many to print, as typed; null where it is no whole number from 1 to 200. */
export function readCount(typed: string): number | null {
  const count = /^\d{1,3}$/.test(typed.trim()) ? Number(typed) : 0
  return count >= 1 && count <= 200 ? count : null
}
