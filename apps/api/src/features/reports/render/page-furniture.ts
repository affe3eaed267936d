import type { SignedContent } from '@curebook/contract/signed-content'
import { colours, paper, styles } from './paper.ts'
import type { ReportToRender } from './report-input.ts'
import type { Sheet } from './sheet.ts'

/** Head and foot of every page, once their number is known: laboratory, report number, when the file was made, page x of y. */
export function drawPageFurniture(sheet: Sheet, content: SignedContent, report: ReportToRender['report']): void {
  const { doc, words, left, width } = sheet
  const { start, count } = doc.bufferedPageRange()
  const row = (y: number, leftText: string, rightText: string) => {
    const right = sheet.visible(rightText)
    const rightWidth = sheet.measure(right, styles.furniture)
    const [first = ''] = sheet.linesOf(leftText, styles.furniture, width - rightWidth - 16)
    sheet.drawLines([first], styles.furniture, { x: left, y, width })
    sheet.drawLines([right], styles.furniture, { x: left, y, width, align: 'right' })
  }
  const line = (y: number) =>
    doc
      .moveTo(left, y)
      .lineTo(left + width, y)
      .lineWidth(0.5)
      .strokeColor(colours.rule)
      .stroke()
  for (let index = 0; index < count; index += 1) {
    doc.switchToPage(start + index)
    const foot = sheet.pageHeight - paper.margin.bottom + 18
    sheet.artifact(() => {
      if (index > 0) {
        row(32, content.laboratory.name, `${words.title} ${report.number ?? words.draft}`)
        line(46)
      }
      line(foot - 5)
      const made = words.footMade(report.number, sheet.format.instant(report.madeAt))
      row(foot, made, words.page(index + 1, count))
    }, 'Pagination')
  }
}
