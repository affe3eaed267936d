import { beforeAll, describe, expect, test } from 'vitest'
import { renderReport } from './render-report.ts'
import { sampleReport } from './sample-content.ts'

/**
 * What can be read off a file of what PDF/A-2b (ISO 19005-2) asks for. It is no validation: none of the validators of that
 * form comes as a package that could run here. A claim of conformance still wants one of them.
 */
const report: { raw: string } = { raw: '' }
beforeAll(async () => {
  report.raw = (await renderReport(sampleReport({}), { compress: false })).toString('latin1')
})

/** A dictionary with those inside it, from where it begins. */
function dictionaryAt(raw: string, start: number): string {
  const brackets = /<<|>>/g
  brackets.lastIndex = start
  for (let depth = 0, found = brackets.exec(raw); found; found = brackets.exec(raw)) {
    depth += found[0] === '<<' ? 1 : -1
    if (depth === 0) return raw.slice(start, brackets.lastIndex)
  }
  throw new Error('The dictionary does not end.')
}
const objectOf = (raw: string, id: string) => {
  const start = raw.indexOf(`\n${id} 0 obj\n`)
  if (start === -1) throw new Error(`There is no object ${id}.`)
  return raw.slice(start, raw.indexOf('\nendobj', start))
}
const dictionaries = (raw: string, type: string) =>
  [...raw.matchAll(/\n\d+ 0 obj\n<</g)]
    .map(({ index, 0: head }) => dictionaryAt(raw, index + head.length - 2))
    .filter((dictionary) => new RegExp(`^<<\\n/Type /${type}\\n`).test(dictionary))
const refOf = (dictionary: string, key: string) => new RegExp(`/${key} \\[?(\\d+) 0 R`).exec(dictionary)?.[1] ?? ''
/** The text of an information entry, which stands as an object of its own. */
const infoOf = (raw: string, key: string) => {
  const info = objectOf(raw, refOf(raw.slice(raw.lastIndexOf('\ntrailer')), 'Info'))
  return /\((.*)\)/.exec(objectOf(raw, refOf(info, key)))?.[1] ?? ''
}
const catalog = () => dictionaries(report.raw, 'Catalog')[0]!

describe('the file is made for keeping, as far as it can be read off', () => {
  test('it says that it is PDF/A-2b, in metadata that need no decoding, and as bytes from its second line on', () => {
    const metadata = objectOf(report.raw, refOf(catalog(), 'Metadata'))
    expect(metadata).toMatch(/<pdfaid:part>2<\/pdfaid:part>\s*<pdfaid:conformance>B<\/pdfaid:conformance>/)
    expect(metadata.slice(0, metadata.indexOf('stream'))).not.toContain('/Filter')
    expect(report.raw).toMatch(/^%PDF-1\.7\n%[\x80-\xff]{4}\n/)
  })

  test('what its metadata say and what its information entries say is the same', () => {
    const metadata = objectOf(report.raw, refOf(catalog(), 'Metadata'))
    const said = (pattern: RegExp) => pattern.exec(metadata)?.[1]
    expect(infoOf(report.raw, 'Title')).toBe(said(/<dc:title>[^]*?<rdf:li xml:lang="x-default">(.*)<\/rdf:li>/))
    expect(infoOf(report.raw, 'Creator')).toBe(said(/<xmp:CreatorTool>(.*)<\/xmp:CreatorTool>/))
    expect(infoOf(report.raw, 'Producer')).toBe(said(/<pdf:Producer>(.*)<\/pdf:Producer>/))
    const created = said(/<xmp:CreateDate>(.*)<\/xmp:CreateDate>/)!
    expect(infoOf(report.raw, 'CreationDate')).toBe(`D:${created.replaceAll(/[-:T]/g, '')}`)
    expect(created).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/)
  })

  test('its colours are tied to a profile that it carries, and none needs another', () => {
    const intent = objectOf(report.raw, refOf(catalog(), 'OutputIntents'))
    expect(intent).toContain('/S /GTS_PDFA1')
    const profile = objectOf(report.raw, refOf(intent, 'DestOutputProfile'))
    expect(profile).toContain('/N 3')
    // Bytes 36 to 39 of every ICC profile, and bytes 16 to 19: its colour space.
    const bytes = profile.slice(profile.indexOf('stream\n') + 7)
    expect([bytes.slice(36, 40), bytes.slice(16, 20)]).toEqual(['acsp', 'RGB '])
    expect(report.raw).not.toMatch(/\/DeviceCMYK|\/Separation|\/DeviceN|\n[\d. ]+ [kK]\n/)
  })

  test('every font is within the file, with the way back from glyphs to characters', () => {
    const fonts = dictionaries(report.raw, 'Font')
    const outer = fonts.filter((font) => font.includes('/Subtype /Type0'))
    expect(outer.length).toBeGreaterThan(0)
    // None that a reader would have to bring along.
    expect(fonts.filter((font) => !/\/Subtype \/(Type0|CIDFontType2)\b/.test(font))).toEqual([])
    for (const font of outer) {
      expect(objectOf(report.raw, refOf(font, 'ToUnicode'))).toContain('begincmap')
      const inner = objectOf(report.raw, refOf(font, 'DescendantFonts'))
      expect(inner).toMatch(/\/CIDToGIDMap \/Identity/)
      expect(inner).toMatch(/\/W \[/)
      const file = objectOf(report.raw, refOf(objectOf(report.raw, refOf(inner, 'FontDescriptor')), 'FontFile2'))
      expect(file.length).toBeGreaterThan(1000)
    }
  })

  test('nothing in it is locked, runs, opens something else or lies elsewhere', () => {
    const trailer = report.raw.slice(report.raw.lastIndexOf('\ntrailer'))
    expect(trailer).toMatch(/\/ID \[<[0-9a-f]{32}> <[0-9a-f]{32}>\]/)
    const forbidden =
      /\/(Encrypt|JavaScript|JS|Launch|Sound|Movie|RichMedia|EmbeddedFile|EmbeddedFiles|LZWDecode|XFA|AA|OpenAction|FFilter|OPI)\b/
    const said = [...report.raw.matchAll(/<<\n/g)].map(({ index }) => dictionaryAt(report.raw, index)).join('\n')
    expect(forbidden.exec(said)?.[0]).toBeUndefined()
    expect(forbidden.exec(trailer)?.[0]).toBeUndefined()
  })
})
