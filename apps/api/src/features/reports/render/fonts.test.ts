import PDFDocument from 'pdfkit'
import { expect, test } from 'vitest'
import { coverageOf, registerFonts } from './fonts.ts'
import { reportWords } from './report-words.ts'
import { sampleReport } from './sample-content.ts'

const doc = new PDFDocument({ autoFirstPage: false })
registerFonts(doc)
const hasGlyph = coverageOf(doc)

function stringsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value]
  if (typeof value === 'function') return [String((value as (...given: string[]) => unknown)('1', '2', '3'))]
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(stringsIn) : []
}

test.each([
  ['the words of the report', stringsIn(reportWords('en'))],
  ['the sample', stringsIn(sampleReport())],
  ['the signs of the trade', ['≥ ≤ µ √ Σ σ → ± × ÷ − · ² ³ ° ′ Δ ñ é ü ß ø']],
])('every font of the report holds every character of %s', (_, strings) => {
  expect(strings.length).toBeGreaterThan(0)
  const missing = [...new Set(strings.join(''))].filter(
    (character) => !/\s/.test(character) && !hasGlyph(character.codePointAt(0)!),
  )
  expect(missing).toEqual([])
})

test('a character that a font lacks is known to be lacking', () => {
  expect(hasGlyph(0x9053)).toBe(false)
})
