import PDFDocument from 'pdfkit'
import { coverageOf, registerFonts } from './fonts.ts'
import { colours, paper, styles, type TextStyle } from './paper.ts'
import type { ReportFormat } from './report-format.ts'
import type { ReportToRender } from './report-input.ts'
import type { ReportWords } from './report-words.ts'
import { visibleText } from './visible-text.ts'
import { wrapLines } from './wrap-lines.ts'

/** What the library takes beside what its types name: the place of a figure, what a head cell heads. */
export type TagOptions = PDFKit.Mixins.StructureElementOptions & {
  readonly bbox?: readonly [number, number, number, number]
  readonly scope?: 'Column' | 'Row'
}
export type Align = 'left' | 'right' | 'centre'
export type Sheet = ReturnType<typeof createSheet>

/**
 * The paper that the report is set on: a cursor that runs down the pages, text measured and broken by ourselves so that
 * heights are known before anything is drawn, and the tags that reading aloud needs.
 */
export function createSheet({
  report,
  words,
  format,
  compress = true,
}: {
  report: ReportToRender['report']
  words: ReportWords
  format: ReportFormat
  compress?: boolean
}) {
  const [pageWidth, pageHeight] = paper.sizes[report.paper]
  const left = paper.margin.left
  const width = pageWidth - left - paper.margin.right
  const bottom = pageHeight - paper.margin.bottom
  const doc = new PDFDocument({
    size: [pageWidth, pageHeight],
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    compress,
    tagged: true,
    lang: report.language,
    displayTitle: true,
    pdfVersion: '1.7',
    subset: 'PDF/A-2b' as 'PDF/A-2',
    info: {
      // Written into XML by the library as it stands: nothing that XML would read otherwise.
      Title: `${words.title} ${report.number ?? words.draft}`.replace(/[<>&]/g, ' '),
      Creator: 'Curebook',
      Producer: 'Curebook',
      // Fixed, so that the same report is the same bytes whenever it is set.
      CreationDate: new Date(report.madeAt),
    },
  })
  registerFonts(doc)
  const hasGlyph = coverageOf(doc)
  const root = doc.struct('Document')
  doc.addStructure(root)

  const place = { y: bottom }
  const visible = (text: string) => visibleText(text, hasGlyph)
  const use = (style: TextStyle) => doc.font(style.font).fontSize(style.size)
  const measure = (text: string, style: TextStyle) => use(style).widthOfString(text)
  const linesOf = (text: string, style: TextStyle, within: number) =>
    wrapLines(visible(text), within, (part) => measure(part, style))

  const newPage = () => {
    doc.addPage()
    place.y = paper.margin.top
  }
  const room = () => bottom - place.y
  /** Lines at a place, top first; the caller knows that they fit. */
  const drawLines = (
    lines: readonly string[],
    style: TextStyle,
    at: { x: number; y: number; width: number; align?: Align },
  ) => {
    lines.forEach((line, index) => {
      const slack = at.align === undefined || at.align === 'left' ? 0 : at.width - measure(line, style)
      const x = at.x + (at.align === 'centre' ? slack / 2 : slack)
      use(style)
        .fillColor(style.colour)
        .text(line, x, at.y + index * style.leading, { lineBreak: false })
    })
  }
  const tag = (type: string, draw: () => void, options: TagOptions = {}) => {
    root.add(doc.struct(type, options, [draw]))
  }
  const artifact = (draw: () => void, type: 'Layout' | 'Pagination' = 'Layout') => {
    doc.markContent('Artifact', { type })
    draw()
    doc.endMarkedContent()
  }

  return {
    doc,
    words,
    format,
    left,
    width,
    bottom,
    pageWidth,
    pageHeight,
    full: bottom - paper.margin.top,
    get y() {
      return place.y
    },
    set y(value: number) {
      place.y = value
    },
    visible,
    measure,
    linesOf,
    newPage,
    room,
    drawLines,
    tag,
    artifact,
    root,
    /** Begins a page unless so much height is left. */
    need: (height: number) => {
      if (room() < height) newPage()
    },
    gap: (height: number) => {
      place.y = Math.min(bottom, place.y + height)
    },
    rule: (colour: string = colours.rule, thickness = 0.6) => {
      artifact(() => {
        doc
          .moveTo(left, place.y)
          .lineTo(left + width, place.y)
          .lineWidth(thickness)
          .strokeColor(colour)
          .stroke()
      })
    },
    /** A heading that keeps at least `keep` points of what follows with it. */
    heading: (text: string, { level = 1, keep = 70 }: { level?: 1 | 2; keep?: number } = {}) => {
      const style = level === 1 ? styles.section : styles.part
      const lines = linesOf(text, style, width)
      const [before, after] = level === 1 ? [14, 4] : [7, 2]
      const height = lines.length * style.leading
      if (room() < before + height + after + keep + 2) newPage()
      else place.y += place.y === paper.margin.top ? 0 : before
      tag(`H${level + 1}`, () => drawLines(lines, style, { x: left, y: place.y, width }))
      if (level === 1) doc.outline.addItem(visible(text))
      place.y += height + after
    },
    /** Running text; goes on over the page when it must, never with one line alone when there are more. */
    paragraph: (
      text: string,
      style: TextStyle = styles.body,
      { after = 4, indent = 0 }: { after?: number; indent?: number } = {},
    ) => {
      if (text === '') return
      const lines = linesOf(text, style, width - indent)
      let rest = lines
      while (rest.length > 0) {
        const fits = Math.floor(room() / style.leading)
        const least = Math.min(2, rest.length)
        if (fits < least) {
          newPage()
          continue
        }
        const now = rest.length > fits && rest.length - fits < 2 && fits > 2 ? fits - 1 : fits
        const part = rest.slice(0, now)
        tag('P', () => drawLines(part, style, { x: left + indent, y: place.y, width: width - indent }))
        place.y += part.length * style.leading
        rest = rest.slice(now)
      }
      place.y += after
    },
  }
}
