import { isSuppliedByOthers } from '@curebook/contract/made-by'
import type { SignedContent } from '@curebook/contract/signed-content'
import { drawFacts } from '../facts.ts'
import { styles } from '../paper.ts'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'

/** The gradation as it was entered, with where it comes from; nothing where none is. */
export function drawGradation(sheet: Sheet, { gradation }: SignedContent): void {
  if (gradation === undefined) return
  const { words, format } = sheet
  if (gradation.sieves.length > 0)
    drawTable(sheet, {
      caption: words.gradation,
      columns: [
        { head: words.sieve, align: 'right' },
        { head: words.passing, align: 'right' },
      ],
      rows: gradation.sieves.map(({ size, passing }) => [size, passing]),
    })
  const source = isSuppliedByOthers(gradation) ? `${words.fromOthersMark} ${gradation.source}` : gradation.source
  drawFacts(sheet, [
    [
      gradation.sieves.length > 0 ? words.source : words.gradation,
      `${source}; ${words.observed.toLowerCase()} ${format.day(gradation.observedOn)}; ${words.enteredBy.toLowerCase()} ${gradation.by}`,
    ],
  ])
  if (gradation.sieves.length === 0) sheet.paragraph(words.gradationInFile, styles.quiet)
  sheet.paragraph(words.gradationNote, styles.quiet)
}
