import { panelResultWords } from '@curebook/contract/panel-result-words'
import type { PanelResult } from '@curebook/contract/panel-results'
import type { SignedContent, SignedSpecimen } from '@curebook/contract/signed-content'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { stringify } from 'csv-stringify/sync'
import { groupedBy } from './grouped-by.ts'
import { createReportFormat, withoutUnit } from './report-format.ts'
import { reportWords } from './report-words.ts'

type Result = SignedSpecimen['results'][number]
type Entered = { readonly label: string; readonly found: PanelResult }
type CsvColumn = {
  readonly head: string
  readonly cell: (specimen: SignedSpecimen, result: Result | null) => string
  /** What the column says of a result that was entered; nothing in columns of specimens. */
  readonly entered?: (result: Entered) => string
}

const plainNumber = /^[+\-−]?\d+([.,]\d+)?$/
const formulaStart = /^\s*[=+\-@＝＋－＠]|^[\t\r\n]/

/**
 * The results of a signed report for spreadsheets: a row for each specimen and result, readings as typed, units in the
 * heads; then a row for each result that was entered and not computed here, said in its state. UTF-8 with byte-order mark; `;` parts the cells where the decimal sign is a comma. A cell that a spreadsheet would
 * take for a formula is led by an apostrophe; true numbers are left alone.
 */
export function resultsCsv(content: SignedContent, { decimalSign }: { decimalSign: string }): string {
  const columns = columnsOf(content, decimalSign)
  const rows = content.specimens.flatMap((specimen) => {
    const results = specimen.results.length === 0 ? [null] : specimen.results
    return results.map((result) => columns.map(({ cell }) => harmless(cell(specimen, result))))
  })
  const typed = content.panel.flatMap(({ label, entered }) =>
    entered ? [columns.map((column) => harmless(column.entered?.({ label, found: entered }) ?? ''))] : [],
  )
  return stringify([columns.map(({ head }) => harmless(head)), ...rows, ...typed], {
    bom: true,
    delimiter: decimalSign === ',' ? ';' : ',',
    record_delimiter: '\r\n',
  })
}

function columnsOf({ specimens, laboratory }: SignedContent, decimalSign: string): CsvColumn[] {
  const { csv, months, enteredMark } = reportWords('en')
  const format = createReportFormat({ decimalSign, zone: laboratory.zone, months })
  // A spreadsheet reads a hyphen as the minus of a number, not the typographic sign.
  const digits = (value: string) => format.digits(value).replace('−', '-')
  // The digits stay as typed; only the sign between them follows the file, or a spreadsheet may read 8.10 as a date.
  const withSign = (typed: string) => (plainNumber.test(typed) ? typed.replace(/[.,]/, decimalSign) : typed)
  return [
    { head: csv.specimen, cell: ({ code }) => code },
    // Never alone: a spreadsheet takes 10-1 for the tenth of January.
    { head: csv.label, cell: ({ code, label }) => (label === '' ? '' : `${label} (${code})`) },
    {
      head: csv.method,
      cell: ({ method }) => method,
      entered: ({ found }) => [found.method, found.edition].filter((part) => part !== '').join(', '),
    },
    { head: csv.form, cell: ({ form }) => form },
    { head: csv.purpose, cell: ({ purpose }) => purpose },
    { head: csv.target, cell: ({ emulsionTarget }) => digits(emulsionTarget) },
    ...readingColumns(specimens, ({ batch }) => batch, withSign),
    { head: csv.emulsion, cell: ({ emulsionAsWeighed }) => digits(emulsionAsWeighed) },
    { head: csv.residual, cell: ({ residualAsWeighed }) => digits(residualAsWeighed) },
    ...readingColumns(specimens, ({ readings }) => readings, withSign),
    { head: csv.result, cell: (_, result) => result?.label ?? '', entered: ({ label }) => label },
    { head: csv.unit, cell: (_, result) => result?.unit ?? '', entered: ({ found }) => found.unit },
    {
      head: csv.shown,
      cell: (_, result) => (result === null ? '' : digits(withoutUnit(result.shown, result.unit))),
      entered: ({ found }) => withSign(found.typed),
    },
    { head: csv.value, cell: (_, result) => digits(result?.value ?? ''), entered: ({ found }) => digits(found.value) },
    { head: csv.refusal, cell: (_, result) => result?.refusal ?? '' },
    { head: csv.state, cell: ({ state }) => state, entered: () => enteredMark },
    {
      head: csv.remark,
      cell: (specimen) => [specimen.remark, ...correctedOf(specimen)].filter((part) => part !== '').join('; '),
      entered: ({ found }) => panelResultWords(found),
    },
  ]
}

/** A corrected reading says what stood there before, as the printed tables mark it. */
function correctedOf({ batch, readings }: SignedSpecimen): string[] {
  const { csv } = reportWords('en')
  return [...batch, ...readings].flatMap(({ step, label, typed, corrected }) =>
    corrected === '' ? [] : [csv.corrected(step === '' ? label : `${step}, ${label}`, corrected, typed)],
  )
}

function readingColumns(
  specimens: readonly SignedSpecimen[],
  of: (specimen: SignedSpecimen) => SignedSpecimen['readings'],
  withSign: (typed: string) => string,
): CsvColumn[] {
  const kindOf = ({ step, label, unit }: SignedSpecimen['readings'][number]) => `${step}\n${label}\n${unit}`
  return [...groupedBy(specimens.flatMap(of), kindOf)].map(([kind, readings]) => {
    const { step, label, unit } = readings[0]!
    const name = step === '' ? label : `${step}: ${label}`
    return {
      head: writtenUnit(unit) === '' ? name : `${name} (${writtenUnit(unit)})`,
      cell: (specimen) =>
        of(specimen)
          .filter((reading) => kindOf(reading) === kind)
          .map(({ typed }) => withSign(typed))
          .join(' / '),
    }
  })
}

function harmless(cell: string): string {
  return formulaStart.test(cell) && !plainNumber.test(cell) ? `'${cell}` : cell
}
