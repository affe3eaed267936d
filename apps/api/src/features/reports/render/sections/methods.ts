import type { SignedContent } from '@curebook/contract/signed-content'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'

/** Editions with every bound, its source and its certainty; then the instruments with factor and calibration. */
export function drawMethods(sheet: Sheet, { methods }: SignedContent): void {
  const { words, format } = sheet
  methods.forEach((method, index) =>
    drawTable(sheet, {
      ...(index === 0 ? { title: words.methods } : {}),
      dense: true,
      caption: `${method.name}: ${words.edition(method.designation, method.edition)}`,
      columns: [
        { head: words.bound, share: 2.6 },
        { head: words.value, share: 0.8, align: 'right' },
        { head: words.source, share: 2 },
        { head: words.certainty, share: 1 },
      ],
      rows: method.parameters.map(({ label, value, unit, source, certainty }) => [
        label,
        [format.digits(value), writtenUnit(unit)].filter((part) => part !== '').join('\u00a0'),
        source,
        certainty,
      ]),
    }),
  )
}

export function drawInstruments(sheet: Sheet, { instruments, measuredAreas = [] }: SignedContent): void {
  const { words, format } = sheet
  if (instruments.length === 0) {
    sheet.heading(words.instruments, { keep: 24 })
    sheet.paragraph(words.none)
    return
  }
  drawTable(sheet, {
    title: words.instruments,
    columns: [
      { head: words.code, fit: true },
      { head: words.instrument, share: 1.6 },
      { head: words.factor, share: 1.5 },
      { head: words.calibration, share: 1.6 },
      { head: words.usedFor, share: 1.3 },
    ],
    rows: instruments.map((instrument) => [
      instrument.code,
      [instrument.name, instrument.kind]
        .filter((part, index, all) => part !== '' && all.indexOf(part) === index)
        .join('\n'),
      [
        format.numbersIn(instrument.factor),
        ...measuredAreas
          .filter(({ code }) => code === instrument.code)
          .map(({ areaCm2 }) => words.measuredArea(format.digits(areaCm2))),
      ]
        .filter((part) => part !== '')
        .join('; ') || words.dash,
      instrument.calibration || words.dash,
      instrument.usedFor,
    ]),
  })
}
