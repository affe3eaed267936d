import { isSuppliedByOthers } from '@curebook/contract/made-by'
import type { SignedContent } from '@curebook/contract/signed-content'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { drawFacts } from '../facts.ts'
import { styles } from '../paper.ts'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'

/** Materials as received, results entered on the design with their source, and the contents of the series. */
export function drawMaterials(sheet: Sheet, content: SignedContent): void {
  const { words, format } = sheet
  drawTable(sheet, {
    title: words.materials,
    columns: [
      { head: words.code, fit: true },
      { head: words.material, share: 1.6 },
      { head: words.source, share: 1.3 },
      { head: words.supplier, share: 1.3 },
      { head: words.lot, share: 0.8 },
      { head: words.received, fit: true },
      { head: words.note, share: 1.8 },
    ],
    rows: content.materials.map((material) => [
      material.code,
      [material.name, material.kind]
        .filter((part, index, all) => part !== '' && all.indexOf(part) === index)
        .join('\n'),
      material.sourceName,
      material.supplier,
      material.lot,
      format.day(material.receivedOn),
      material.note,
    ]),
  })
  sheet.paragraph(words.materialsNote, styles.quiet)
  if (content.enteredResults.length > 0) drawEntered(sheet, content)
  if (content.mixes.length > 0) drawMixes(sheet, content)
  const { fractionUsed, scalpedPercent } = content.design
  drawFacts(sheet, [[words.fraction, words.fractionWords(fractionUsed, format.digits(scalpedPercent))]])
}

function drawEntered(sheet: Sheet, { enteredResults }: SignedContent): void {
  const { words, format } = sheet
  drawTable(sheet, {
    caption: words.entered,
    columns: [
      { head: words.enteredKey, share: 1.6 },
      { head: words.typed, share: 0.8 },
      { head: words.source, share: 2 },
      { head: words.observed, fit: true },
      { head: words.enteredBy, share: 1 },
    ],
    rows: enteredResults.map((entered) => [
      entered.label,
      [entered.typed, writtenUnit(entered.unit)].filter((part) => part !== '').join('\u00a0'),
      isSuppliedByOthers(entered) ? `${words.fromOthersMark} ${entered.source}` : entered.source,
      format.day(entered.observedOn),
      entered.by,
    ]),
  })
  if (enteredResults.some(isSuppliedByOthers)) sheet.paragraph(words.fromOthersNote, styles.quiet)
}

function drawMixes(sheet: Sheet, { mixes }: SignedContent): void {
  const { words, format } = sheet
  const percent = (name: string) => `${name}, %`
  drawTable(sheet, {
    caption: words.mixes,
    columns: [words.emulsion, words.water, words.filler, words.additive].map((name) => ({
      head: percent(name),
      align: 'right' as const,
    })),
    rows: mixes.map((mix) =>
      [mix.emulsionPercent, mix.waterPercent, mix.fillerPercent, mix.additivePercent].map((digits) =>
        format.digits(digits),
      ),
    ),
  })
}
