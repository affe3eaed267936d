import { drawCheckSquare } from '../check-mark.ts'
import { drawFacts } from '../facts.ts'
import { colours, styles } from '../paper.ts'
import type { ReportToRender } from '../report-input.ts'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'

const squareSize = 84

/** Statements, signatures with the digest of what was signed, how to check the report, and the mark of its end. */
export function drawClosing(sheet: Sheet, { content, report, signatures }: ReportToRender): void {
  const { words } = sheet
  sheet.heading(words.statements, { keep: 60 })
  content.statements.forEach((statement, index) =>
    sheet.paragraph(`${index + 1}. ${statement}`, styles.body, { after: 2.5 }),
  )
  sheet.paragraph(words.zoneNote(content.laboratory.zone), styles.quiet, { after: 0 })
  if (report.number !== null) drawProofs(sheet, report, signatures)
  sheet.need(26)
  sheet.gap(10)
  const end = sheet.visible(`— ${words.end(report.number)} —`)
  sheet.tag('P', () =>
    sheet.drawLines([end], styles.strong, { x: sheet.left, y: sheet.y, width: sheet.width, align: 'centre' }),
  )
}

/** What a draft has none of: signatures, and the way to check the report. */
function drawProofs(sheet: Sheet, report: ReportToRender['report'], signatures: ReportToRender['signatures']): void {
  const { words } = sheet
  const checkHeight = 34 + (report.checkUrl === null ? 36 : squareSize)
  // Signatures and the way to check them stay on one page.
  sheet.heading(words.signatures, { keep: Math.min(sheet.full / 2, 70 + 24 * signatures.length + checkHeight) })
  drawSignatures(sheet, report, signatures)
  drawCheck(sheet, report)
}

function drawSignatures(
  sheet: Sheet,
  report: ReportToRender['report'],
  signatures: ReportToRender['signatures'],
): void {
  const { words, format } = sheet
  drawFacts(sheet, [[words.digest, report.digest]], { style: styles.cellStrong })
  drawTable(sheet, {
    columns: [
      { head: words.name, share: 1.2 },
      { head: words.signedAs, share: 0.9 },
      { head: words.meaning, share: 0.9 },
      { head: words.statement, share: 2.6 },
      { head: words.signedAt, fit: true },
    ],
    rows: signatures.map((signature) => [
      { text: signature.name, strong: true },
      signature.role,
      signature.meaning,
      signature.digest === report.digest
        ? signature.statement
        : `${signature.statement}\n${words.otherDigest(signature.digest)}`,
      format.instant(signature.at),
    ]),
  })
  sheet.paragraph(words.digestNote, styles.quiet)
}

function drawCheck(sheet: Sheet, report: ReportToRender['report']): void {
  const { words, left, width } = sheet
  const size = squareSize
  sheet.heading(words.check, { level: 2, keep: report.checkUrl === null ? 36 : size + 4 })
  const shift = report.checkUrl === null ? 0 : size + 14
  const top = sheet.y
  if (report.checkUrl !== null)
    drawCheckSquare(sheet, report.checkUrl, { x: left, y: top, size, alt: words.squareAlt(report.checkUrl) })
  const how = report.checkUrl === null ? words.checkWithCode : words.checkWithSquare(report.checkUrl)
  const lines = sheet.linesOf(how, styles.body, width - shift)
  const code = sheet.visible(`${words.checkCode}: ${report.checkCode ?? ''}`)
  const at = { x: left + shift, width: width - shift }
  sheet.tag('P', () => {
    sheet.drawLines([code], { ...styles.lead, colour: colours.head }, { ...at, y: top + (shift > 0 ? 14 : 0) })
    sheet.drawLines(lines, styles.body, { ...at, y: top + (shift > 0 ? 34 : 20) })
  })
  sheet.y = top + Math.max(shift > 0 ? size : 0, 24 + lines.length * styles.body.leading)
}
