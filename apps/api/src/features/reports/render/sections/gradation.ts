import { gradationLabel } from '@curebook/contract/gradations'
import { gradationVerdict } from '@curebook/contract/gradation-verdict'
import { isSuppliedByOthers } from '@curebook/contract/made-by'
import type { SignedContent } from '@curebook/contract/signed-content'
import { sourceMark } from '@curebook/contract/source-mark'
import { drawFacts } from '../facts.ts'
import { colours, styles } from '../paper.ts'
import type { Sheet } from '../sheet.ts'
import type { Cell } from '../table-columns.ts'
import { drawTable } from '../table.ts'

/** The gradation as it was entered, against the band where one is held; nothing where none is entered. */
export function drawGradation(sheet: Sheet, content: SignedContent): void {
  const { gradation, gradationCheck: check } = content
  if (gradation === undefined) return
  const { words, format } = sheet
  if (check !== undefined) sheet.paragraph(`${gradationLabel}: ${check.sentence}`, styles.strong)
  if (gradation.sieves.length > 0)
    drawTable(sheet, {
      caption: words.gradation,
      columns: [
        { head: words.sieve, align: 'right' },
        { head: words.passing, align: 'right' },
        ...(check === undefined ? [] : [{ head: words.band, align: 'right' as const }, { head: words.verdict }]),
      ],
      rows: rowsOf(sheet, content),
    })
  const source = isSuppliedByOthers(gradation) ? `${words.fromOthersMark} ${gradation.source}` : gradation.source
  drawFacts(sheet, [
    [
      gradation.sieves.length > 0 ? words.source : words.gradation,
      `${source}; ${words.observed.toLowerCase()} ${format.day(gradation.observedOn)}; ${words.enteredBy.toLowerCase()} ${gradation.by}`,
    ],
    [words.bandSource, check === undefined ? '' : sourceMark(check)],
  ])
  if (gradation.sieves.length === 0) sheet.paragraph(words.gradationInFile, styles.quiet)
  sheet.paragraph(check === undefined ? words.gradationNote : words.gradationHeldNote, styles.quiet)
}

/** Sieves as typed; beside those of the band what is allowed, and those of the band that were not used. */
function rowsOf({ words, format }: Sheet, { gradation, gradationCheck: check }: SignedContent): Cell[][] {
  const typed = gradation?.sieves ?? []
  if (check === undefined) return typed.map(({ size, passing }) => [size, passing])
  const openingOf = (size: string) => Number(size.replace(',', '.'))
  const held = check.rows.map((row) => {
    const own = typed.find(({ size }) => openingOf(size) === Number(row.size))
    const verdict = { inside: 'pass', outside: 'fail', 'not tested': 'not tested' } as const
    return {
      opening: Number(row.size),
      cells: [
        own?.size ?? format.digits(row.size),
        own?.passing ?? words.dash,
        words.bandEdges(format.digits(row.from), format.digits(row.to)),
        {
          text: words.verdicts[verdict[row.verdict]],
          strong: true,
          colour: row.verdict === 'outside' ? colours.lost : row.verdict === 'inside' ? colours.head : colours.open,
        },
      ],
    }
  })
  const others = typed
    .filter(({ size }) => !check.rows.some((row) => Number(row.size) === openingOf(size)))
    .map(({ size, passing }) => ({ opening: openingOf(size), cells: [size, passing, words.noBand, words.dash] }))
  return [...held, ...others].toSorted((a, b) => b.opening - a.opening).map(({ cells }) => cells)
}

/** The gradation in the form of a row of the panel, where the specification holds a band: it decides with the others. */
export function gradationRow({ gradation, gradationCheck: check }: SignedContent) {
  if (check === undefined) return []
  return [
    { label: gradationLabel, verdict: gradationVerdict(check, gradation !== undefined), source: sourceMark(check) },
  ]
}
