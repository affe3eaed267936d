import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import type { ReportToRender } from '../report-input.ts'
import type { Sheet } from '../sheet.ts'
import type { Column } from '../table-columns.ts'
import { drawTable } from '../table.ts'

/** What did not go as planned and what was decided, what was corrected, what the approver was shown, and who did what. */
export function drawDecisions(sheet: Sheet, { content, signatures }: ReportToRender): void {
  const { words, format } = sheet
  const byAndWhen: Column[] = [
    { head: words.by, share: 0.9 },
    { head: words.when, fit: true },
  ]
  const section = (name: string, columns: readonly Column[], rows: readonly (readonly string[])[]) => {
    if (rows.length > 0) {
      drawTable(sheet, { title: name, columns, rows })
      return
    }
    sheet.heading(name, { keep: 24 })
    sheet.paragraph(words.none)
  }
  section(
    words.deviations,
    [
      { head: words.code, fit: true },
      { head: words.deviation, share: 2.4 },
      { head: words.decision, share: 2 },
      ...byAndWhen,
    ],
    content.deviations.map(({ code, text, decision, by, at }) => [code, text, decision, by, format.instant(at)]),
  )
  section(
    words.corrections,
    [
      { head: words.specimen, fit: true },
      { head: words.reading, share: 1.6 },
      { head: words.from, fit: true, align: 'right' },
      { head: words.to, fit: true, align: 'right' },
      { head: words.reason, share: 1.8 },
      ...byAndWhen,
    ],
    content.corrections.map((one) => [
      one.code,
      ...correctedOf(content, one),
      one.reason,
      one.by,
      format.instant(one.at),
    ]),
  )
  section(
    words.acknowledgements,
    [{ head: words.point, share: 2.6 }, { head: words.word, share: 1.4 }, ...byAndWhen],
    content.acknowledgements.map(({ point, effect, word, by, at }) => [
      `${point} ${effect}`.trim(),
      word,
      by,
      format.instant(at),
    ]),
  )
  section(
    words.people,
    [
      { head: words.person, share: 1 },
      { head: words.part, share: 3 },
    ],
    [
      ...content.people.map(({ name, part }) => [name, part]),
      ...signatures.map(({ name, role, meaning }) => [name, words.signedPart(meaning, role)]),
    ],
  )
}

/** Which reading it was, and in which unit: that is kept with the reading that stands, which tells what stood before it. */
function correctedOf(
  { specimens }: ReportToRender['content'],
  { code, label, from, to }: ReportToRender['content']['corrections'][number],
): [string, string, string] {
  const own = specimens.flatMap((one) => (one.code === code ? [...one.batch, ...one.readings] : []))
  const found = own.filter(({ corrected }) => corrected.includes(`${from} (`))
  const [reading] = found
  if (!reading || found.length > 1) return [label, from, to]
  const name = [reading.step, reading.label].filter((part, index, all) => all.indexOf(part) === index).join(', ')
  const withUnit = (typed: string) => [typed, writtenUnit(reading.unit)].filter((part) => part !== '').join('\u00a0')
  return [`${label}: ${name}`, withUnit(from), withUnit(to)]
}
