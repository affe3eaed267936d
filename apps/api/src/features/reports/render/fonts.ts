import { createRequire } from 'node:module'
import { fonts, type FontName } from './paper.ts'

const require = createRequire(import.meta.url)

/** Free fonts that hold the signs of the trade (≥ ≤ µ √ Σ σ →); Condensed for tables. */
const files: Record<FontName, string> = {
  [fonts.text]: 'DejaVuSans.ttf',
  [fonts.strong]: 'DejaVuSans-Bold.ttf',
  [fonts.table]: 'DejaVuSansCondensed.ttf',
  [fonts.tableStrong]: 'DejaVuSansCondensed-Bold.ttf',
}
const names = Object.values(fonts)

/** The font reading that pdfkit keeps to itself: it prints an empty glyph without a word where one is missing. */
type WithCoverage = { _font: { font: { hasGlyphForCodePoint(codePoint: number): boolean } } }

/** Makes the report's fonts known to a document. */
export function registerFonts(doc: PDFKit.PDFDocument): void {
  for (const name of names) doc.registerFont(name, require.resolve(`dejavu-fonts-ttf/ttf/${files[name]}`))
}

/** Whether every one of the report's fonts can show a character; asked once for each. */
export function coverageOf(doc: PDFKit.PDFDocument): (codePoint: number) => boolean {
  const read = names.map((name) => (doc.font(name) as unknown as WithCoverage)._font.font)
  const known = new Map<number, boolean>()
  return (codePoint) => {
    const before = known.get(codePoint)
    if (before !== undefined) return before
    const covered = read.every((font) => font.hasGlyphForCodePoint(codePoint))
    known.set(codePoint, covered)
    return covered
  }
}
