import { drawPageFurniture } from './page-furniture.ts'
import { createReportFormat } from './report-format.ts'
import type { ReportToRender } from './report-input.ts'
import { reportWords } from './report-words.ts'
import { drawCalculations } from './sections/calculations.ts'
import { drawClosing } from './sections/closing.ts'
import { drawCurves } from './sections/curves.ts'
import { drawDecisions } from './sections/decisions.ts'
import { drawFirstPage } from './sections/first-page.ts'
import { drawGradation } from './sections/gradation.ts'
import { drawMaterials } from './sections/materials.ts'
import { drawInstruments, drawMethods } from './sections/methods.ts'
import { drawSpecimens } from './sections/specimens.ts'
import { drawTrialMixes } from './sections/trial-mixes.ts'
import { createSheet } from './sheet.ts'

/** Goes up whenever the same content would be set as other bytes; stored beside each report's PDF. */
export const rendererVersion = '4'

/**
 * Sets a report as a PDF: vectors and embedded fonts only, tagged for reading aloud. Pure: the same report gives the same
 * bytes. Takes long enough to stall a server; call it through `createReportRenderer`.
 */
export async function renderReport(
  input: ReportToRender,
  options: { readonly compress?: boolean } = {},
): Promise<Buffer> {
  const { content, report } = input
  const words = reportWords(report.language)
  const format = createReportFormat({ ...content.laboratory, months: words.months })
  const sheet = createSheet({ report, words, format, compress: options.compress })
  const bytes = collect(sheet.doc)
  drawFirstPage(sheet, input)
  drawMaterials(sheet, content)
  drawGradation(sheet, content)
  drawCurves(sheet, content)
  drawSpecimens(sheet, content)
  drawMethods(sheet, content)
  drawInstruments(sheet, content)
  drawDecisions(sheet, input)
  drawCalculations(sheet, content)
  drawTrialMixes(sheet, content)
  drawClosing(sheet, input)
  drawPageFurniture(sheet, content, report)
  sheet.doc.end()
  return bytes
}

function collect(doc: PDFKit.PDFDocument): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const chunks: Buffer[] = []
    doc.on('data', (chunk: Buffer) => chunks.push(chunk))
    doc.on('end', () => resolve(Buffer.concat(chunks)))
    doc.on('error', reject)
  })
}
