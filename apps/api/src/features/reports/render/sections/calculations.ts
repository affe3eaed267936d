import type { SignedContent } from '@curebook/contract/signed-content'
import type { CalculationSchema } from '@curebook/contract/results'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import type { z } from 'zod'
import { groupedBy } from '../grouped-by.ts'
import { styles } from '../paper.ts'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'

type Calculation = z.infer<typeof CalculationSchema>

/** How the range and the values judged were computed, and one worked example of each method, with all digits. */
export function drawCalculations(sheet: Sheet, { range, panel, specimens, batchExample }: SignedContent): void {
  const { words } = sheet
  const ends = [
    [words.rangeMinimum, range.minimum.calculation],
    [words.rangeMaximum, range.maximum.calculation],
    [words.rangeMidpoint, range.midpointCalculation],
  ] as const
  const examples = [...groupedBy(specimens, ({ method }) => method)].flatMap(([method, ofMethod]) => {
    const found = ofMethod
      .map(({ code, results }) => ({ code, result: results.findLast(({ calculation }) => calculation !== null) }))
      .find(({ result }) => result !== undefined)
    return found?.result?.calculation
      ? [[words.workedExample(method, found.code), found.result.calculation] as const]
      : []
  })
  const drawn = [
    ...ends.flatMap(([name, calculation]) =>
      calculation === null ? [] : [[words.calculationOf(name), calculation] as const],
    ),
    ...panel.flatMap(({ label, calculation, verdict }) =>
      calculation === null
        ? []
        : [[words.calculationOfValue(label, verdict === 'no limit held'), calculation] as const],
    ),
    ...(batchExample ? [[words.batchExample(batchExample.code), batchExample.calculation] as const] : []),
    ...examples,
  ]
  if (drawn.length === 0) return
  sheet.heading(words.calculations, { keep: 110 })
  sheet.paragraph(words.calculationNote, styles.quiet)
  for (const [name, calculation] of drawn) drawCalculation(sheet, name, calculation)
}

function drawCalculation(sheet: Sheet, caption: string, { lines }: Calculation): void {
  const { words, format } = sheet
  drawTable(sheet, {
    dense: true,
    caption,
    columns: [
      { head: words.symbol, fit: true },
      { head: words.what, share: 1.5 },
      { head: words.formula, share: 1.5 },
      { head: words.value, fit: true, align: 'right' },
      { head: words.unit, fit: true },
      { head: words.sourceOfLine, share: 1.3 },
    ],
    rows: lines.map((line) => [
      { text: line.symbol, strong: true },
      line.name,
      formulaOf(sheet, line),
      format.digits(line.value),
      writtenUnit(line.unit),
      line.source,
    ]),
  })
}

function formulaOf({ words, format }: Sheet, { op, operands }: Calculation['lines'][number]): string {
  const parts = operands.map((operand) => format.digits(operand))
  const [a = '', b = '', c = '', d = '', e = ''] = parts
  switch (op) {
    case 'input':
      return words.asItStands
    case 'difference':
      return parts.join(' − ')
    case 'product':
    case 'convert':
      return parts.join(' × ')
    case 'quotient':
      return parts.join(' ÷ ')
    case 'sum':
      return parts.join(' + ')
    case 'mean':
      return `${words.meanOf} ${parts.join('; ')}`
    case 'interpolate':
      return `${c} + (${a} − ${b}) × (${e} − ${c}) ÷ (${d} − ${b})`
    case 'round':
      return `${a}, ${words.roundedTo} ${b}`
  }
}
