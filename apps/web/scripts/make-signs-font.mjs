/**
 * Makes fonts/curebook-signs.ttf: the few signs that our reading fonts lack, cut out of DejaVu Sans. Run again only when a
 * sign is added to SIGNS: `node apps/web/scripts/make-signs-font.mjs`.
 */
import { createRequire } from 'node:module'
import { readFileSync, writeFileSync } from 'node:fs'

const SIGNS = [...'≥≤µμ√Σσ→←↑↓≈≠Δ‑∞']
const require = createRequire(import.meta.url)
const source = readFileSync(require.resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'))

const tables = new Map()
for (let index = 0; index < source.readUInt16BE(4); index += 1) {
  const at = 12 + index * 16
  tables.set(
    source.toString('latin1', at, at + 4),
    source.subarray(source.readUInt32BE(at + 8), source.readUInt32BE(at + 8) + source.readUInt32BE(at + 12)),
  )
}
const head = Buffer.from(tables.get('head'))
const longLoca = head.readInt16BE(50) === 1
const loca = tables.get('loca')
const offsetOf = (glyph) => (longLoca ? loca.readUInt32BE(glyph * 4) : loca.readUInt16BE(glyph * 2) * 2)
const outline = (glyph) => tables.get('glyf').subarray(offsetOf(glyph), offsetOf(glyph + 1))

function glyphOf(codePoint) {
  const cmap = tables.get('cmap')
  for (let index = 0; index < cmap.readUInt16BE(2); index += 1) {
    const table = cmap.subarray(cmap.readUInt32BE(4 + index * 8 + 4))
    if (table.readUInt16BE(0) !== 4) continue
    const segments = table.readUInt16BE(6) / 2
    for (let segment = 0; segment < segments; segment += 1) {
      const end = table.readUInt16BE(14 + segment * 2)
      const startAt = 16 + segments * 2 + segment * 2
      const start = table.readUInt16BE(startAt)
      if (codePoint < start || codePoint > end) continue
      const delta = table.readUInt16BE(startAt + segments * 2)
      const rangeAt = startAt + segments * 4
      const range = table.readUInt16BE(rangeAt)
      if (range === 0) return (codePoint + delta) & 0xffff
      const glyph = table.readUInt16BE(rangeAt + range + (codePoint - start) * 2)
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff
    }
  }
  throw new Error('no unicode table in the source font')
}

/** Old glyph numbers in their new order; parts of composite glyphs follow. */
const order = [0]
const renumber = (glyph) => {
  if (!order.includes(glyph)) order.push(glyph)
  return order.indexOf(glyph)
}
const codePoints = SIGNS.map((sign) => sign.codePointAt(0)).sort((a, b) => a - b)
const mapped = codePoints.map((codePoint) => {
  const glyph = glyphOf(codePoint)
  if (glyph === 0) throw new Error(`the source font has no ${String.fromCodePoint(codePoint)}`)
  return [codePoint, renumber(glyph)]
})
const outlines = []
for (let index = 0; index < order.length; index += 1) {
  const data = Buffer.from(outline(order[index]))
  if (data.length > 0 && data.readInt16BE(0) < 0) {
    let at = 10
    let flags
    do {
      flags = data.readUInt16BE(at)
      data.writeUInt16BE(renumber(data.readUInt16BE(at + 2)), at + 2)
      at += 4 + (flags & 1 ? 4 : 2) + (flags & 8 ? 2 : flags & 64 ? 4 : flags & 128 ? 8 : 0)
    } while (flags & 32)
  }
  outlines.push(Buffer.concat([data, Buffer.alloc((4 - (data.length % 4)) % 4)]))
}

const hhea = Buffer.from(tables.get('hhea'))
const oldMetrics = hhea.readUInt16BE(34)
const hmtx = Buffer.alloc(order.length * 4)
order.forEach((glyph, index) => {
  const at = Math.min(glyph, oldMetrics - 1) * 4
  hmtx.writeUInt16BE(tables.get('hmtx').readUInt16BE(at), index * 4)
  const bearing = glyph < oldMetrics ? at + 2 : oldMetrics * 4 + (glyph - oldMetrics) * 2
  hmtx.writeInt16BE(tables.get('hmtx').readInt16BE(bearing), index * 4 + 2)
})
hhea.writeUInt16BE(order.length, 34)
const maxp = Buffer.from(tables.get('maxp'))
maxp.writeUInt16BE(order.length, 4)
const newLoca = Buffer.alloc((order.length + 1) * 4)
outlines.reduce((at, data, index) => {
  newLoca.writeUInt32BE(at + data.length, (index + 1) * 4)
  return at + data.length
}, 0)
head.writeInt16BE(1, 50)
head.writeUInt32BE(0, 8)

function format4(pairs) {
  const segments = [...pairs.map(([codePoint, glyph]) => [codePoint, (glyph - codePoint) & 0xffff]), [0xffff, 1]]
  const count = segments.length
  const power = Math.floor(Math.log2(count))
  const table = Buffer.alloc(16 + count * 8)
  table.writeUInt16BE(4, 0)
  table.writeUInt16BE(table.length, 2)
  table.writeUInt16BE(count * 2, 6)
  table.writeUInt16BE(2 ** power * 2, 8)
  table.writeUInt16BE(power, 10)
  table.writeUInt16BE(count * 2 - 2 ** power * 2, 12)
  segments.forEach(([codePoint, delta], index) => {
    table.writeUInt16BE(codePoint, 14 + index * 2)
    table.writeUInt16BE(codePoint, 16 + count * 2 + index * 2)
    table.writeUInt16BE(delta, 16 + count * 4 + index * 2)
  })
  return Buffer.concat([Buffer.from([0, 0, 0, 1, 0, 3, 0, 1, 0, 0, 0, 12]), table])
}

function names(entries) {
  const texts = entries.map(([, text]) => Buffer.from(text, 'utf16le').swap16())
  const table = Buffer.alloc(6 + entries.length * 12)
  table.writeUInt16BE(entries.length, 2)
  table.writeUInt16BE(table.length, 4)
  let at = 0
  entries.forEach(([id], index) => {
    ;[3, 1, 0x409, id, texts[index].length, at].forEach((value, part) =>
      table.writeUInt16BE(value, 6 + index * 12 + part * 2),
    )
    at += texts[index].length
  })
  return Buffer.concat([table, ...texts])
}

const post = Buffer.alloc(32)
post.writeUInt32BE(0x00030000, 0)
const out = new Map([
  ['OS/2', Buffer.from(tables.get('OS/2'))],
  ['cmap', format4(mapped)],
  ['glyf', Buffer.concat(outlines)],
  ['head', head],
  ['hhea', hhea],
  ['hmtx', hmtx],
  ['loca', newLoca],
  ['maxp', maxp],
  [
    'name',
    names([
      [0, 'Cut from DejaVu Sans; see signs-licence.txt'],
      [1, 'Curebook Signs'],
      [2, 'Regular'],
      [3, 'Curebook Signs 1'],
      [4, 'Curebook Signs'],
      [5, 'Version 1'],
      [6, 'CurebookSigns'],
    ]),
  ],
  ['post', post],
])

const checksum = (data) => {
  let sum = 0
  const padded = Buffer.concat([data, Buffer.alloc((4 - (data.length % 4)) % 4)])
  for (let at = 0; at < padded.length; at += 4) sum = (sum + padded.readUInt32BE(at)) >>> 0
  return sum
}
const count = out.size
const power = Math.floor(Math.log2(count))
const directory = Buffer.alloc(12 + count * 16)
directory.writeUInt32BE(0x00010000, 0)
;[count, 2 ** power * 16, power, count * 16 - 2 ** power * 16].forEach((value, index) =>
  directory.writeUInt16BE(value, 4 + index * 2),
)
let at = directory.length
const bodies = []
let headAt = 0
;[...out].forEach(([tag, data], index) => {
  if (tag === 'head') headAt = at
  directory.write(tag, 12 + index * 16, 'latin1')
  directory.writeUInt32BE(checksum(data), 12 + index * 16 + 4)
  directory.writeUInt32BE(at, 12 + index * 16 + 8)
  directory.writeUInt32BE(data.length, 12 + index * 16 + 12)
  const padded = Buffer.concat([data, Buffer.alloc((4 - (data.length % 4)) % 4)])
  bodies.push(padded)
  at += padded.length
})
const font = Buffer.concat([directory, ...bodies])
font.writeUInt32BE((0xb1b0afba - checksum(font)) >>> 0, headAt + 8)
const target = new URL('../fonts/curebook-signs.ttf', import.meta.url)
writeFileSync(target, font)
console.log(`fonts/curebook-signs.ttf: ${SIGNS.length} signs, ${font.length} bytes`)
