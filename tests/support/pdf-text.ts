import { inflateSync } from 'node:zlib'

export type PdfLine = { readonly text: string; readonly x: number; readonly y: number; readonly size: number }
export type PdfPage = {
  readonly text: string
  readonly lines: readonly PdfLine[]
  readonly mediaBox: readonly number[]
}
export type PdfReading = {
  readonly pages: readonly PdfPage[]
  /** All text, lines and pages parted by one space. */
  readonly text: string
  /** How often the empty glyph is printed in place of a character. */
  readonly emptyGlyphs: number
  /** Dictionaries of all objects, without their streams. */
  readonly dictionaries: readonly string[]
}

type PdfObject = { readonly dictionary: string; readonly stream: string }

/**
 * Reads back the text of a PDF that our own renderer made: fonts with a ToUnicode map, text in hexadecimal strings, one
 * block a line. Not a reader for other PDFs.
 */
export function readPdf(bytes: Buffer): PdfReading {
  const objects = objectsOf(bytes.toString('latin1'))
  const dictionaries = [...objects.values()].map(({ dictionary }) => dictionary)
  const counted = { emptyGlyphs: 0 }
  const pages = dictionaries
    .filter((dictionary) => /\/Type \/Page\b/.test(dictionary))
    .map((page): PdfPage => {
      const resources = objects.get(refOf(page, 'Resources'))!.dictionary
      const fonts = new Map(
        [...resources.matchAll(/\/(F\d+) (\d+) 0 R/g)].map(([, name, ref]) => [name!, unicodeOf(objects, Number(ref))]),
      )
      const lines = linesOf(objects.get(refOf(page, 'Contents'))!.stream, fonts, counted)
      const mediaBox = /\/MediaBox \[([^\]]*)\]/.exec(page)![1]!.split(' ').map(Number)
      return { lines, mediaBox, text: lines.map(({ text }) => text).join(' ') }
    })
  return { pages, text: pages.map(({ text }) => text).join(' '), emptyGlyphs: counted.emptyGlyphs, dictionaries }
}

function objectsOf(raw: string): Map<number, PdfObject> {
  const objects = new Map<number, PdfObject>()
  const start = /(?:^|\n)(\d+) 0 obj\n/g
  for (let found = start.exec(raw); found; found = start.exec(raw)) {
    const end = raw.indexOf('\nendobj', start.lastIndex)
    const streamAt = raw.indexOf('\nstream\n', start.lastIndex)
    const hasStream = streamAt !== -1 && streamAt < end
    const dictionary = raw.slice(start.lastIndex, hasStream ? streamAt : end)
    if (!hasStream) {
      objects.set(Number(found[1]), { dictionary, stream: '' })
      continue
    }
    const length = Number(/\/Length (\d+)/.exec(dictionary)![1])
    const data = raw.slice(streamAt + 8, streamAt + 8 + length)
    const stream = dictionary.includes('/FlateDecode')
      ? inflateSync(Buffer.from(data, 'latin1')).toString('latin1')
      : data
    objects.set(Number(found[1]), { dictionary, stream })
    start.lastIndex = streamAt + 8 + length
  }
  return objects
}

const refOf = (dictionary: string, key: string) => Number(new RegExp(`/${key} (\\d+) 0 R`).exec(dictionary)![1])

/** Glyph number → text, from the font's map. */
function unicodeOf(objects: Map<number, PdfObject>, font: number): Map<number, string> {
  const { stream } = objects.get(refOf(objects.get(font)!.dictionary, 'ToUnicode'))!
  const map = new Map<number, string>()
  for (const [, first, entries] of stream.matchAll(/<([0-9a-f]+)> <[0-9a-f]+> \[([^\]]*)\]/g))
    [...entries!.matchAll(/<([0-9a-f ]*)>/g)].forEach(([, hex], index) => {
      const units = hex!.split(' ').filter((part) => part !== '')
      map.set(parseInt(first!, 16) + index, String.fromCharCode(...units.map((unit) => parseInt(unit, 16))))
    })
  return map
}

type Matrix = readonly [number, number, number, number, number, number]

/** Runs through what is drawn, following the coordinates, and takes each block of text as a line. */
function linesOf(stream: string, fonts: Map<string, Map<number, string>>, counted: { emptyGlyphs: number }): PdfLine[] {
  const saved: Matrix[] = []
  let matrix: Matrix = [1, 0, 0, 1, 0, 0]
  const lines: PdfLine[] = []
  for (const [token, numbers, block] of stream.matchAll(/^(?:q|Q|([-\d. ]+) cm|BT\n([\s\S]*?)\nET)$/gm)) {
    if (token === 'q') saved.push(matrix)
    else if (token === 'Q') matrix = saved.pop() ?? matrix
    else if (numbers !== undefined) matrix = times(numbers.split(' ').map(Number) as unknown as Matrix, matrix)
    else {
      const [, x, y] = / (-?[\d.]+) (-?[\d.]+) Tm/.exec(block!)!
      const [, font, size] = /\/(F\d+) ([\d.]+) Tf/.exec(block!)!
      const glyphs = [...block!.matchAll(/<([0-9a-f]+)>/g)].flatMap(([, hex]) => hex!.match(/.{4}/g) ?? [])
      counted.emptyGlyphs += glyphs.filter((glyph) => glyph === '0000').length
      const text = glyphs.map((glyph) => fonts.get(font!)!.get(parseInt(glyph, 16)) ?? '').join('')
      const [, , , , left, base] = times([1, 0, 0, 1, Number(x), Number(y)], matrix)
      lines.push({ text, x: left, y: base, size: Number(size) })
    }
  }
  return lines
}

function times([a, b, c, d, e, f]: Matrix, [A, B, C, D, E, F]: Matrix): Matrix {
  return [a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D, e * A + f * C + E, e * B + f * D + F]
}
