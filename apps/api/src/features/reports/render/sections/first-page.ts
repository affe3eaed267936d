import type { SignedContent } from '@curebook/contract/signed-content'
import { sourceMark } from '@curebook/contract/source-mark'
import { drawFacts } from '../facts.ts'
import { colours, styles } from '../paper.ts'
import type { ReportToRender } from '../report-input.ts'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'
import { gradationRow } from './gradation.ts'

/** Who, for whom, what, and the answer: recommendation, acceptable range, every property with its verdict. */
export function drawFirstPage(sheet: Sheet, { content, report, signatures }: ReportToRender): void {
  sheet.newPage()
  drawLetterhead(sheet, content, report)
  drawSubject(sheet, { content, report, signatures })
  drawRecommendation(sheet, content)
  drawRange(sheet, content)
  drawPanel(sheet, content)
}

function drawLetterhead(sheet: Sheet, { laboratory }: SignedContent, report: ReportToRender['report']): void {
  const { words, left, width } = sheet
  sheet.y = 40
  const name = sheet.linesOf(laboratory.name, styles.laboratory, width * 0.56)
  const about = [laboratory.address, laboratory.contact, laboratory.accreditation].filter((line) => line !== '')
  const lines = about.flatMap((line) => sheet.linesOf(line, styles.quiet, width * 0.56))
  const number = sheet.linesOf(report.number ?? words.draft, styles.lead, width * 0.4)
  const nameHeight = name.length * styles.laboratory.leading
  sheet.tag('P', () => {
    sheet.drawLines(name, styles.laboratory, { x: left, y: sheet.y, width })
    sheet.drawLines(lines, styles.quiet, { x: left, y: sheet.y + nameHeight + 1, width })
  })
  const right = { x: left + width * 0.6, width: width * 0.4, align: 'right' as const }
  const issued = report.number === null ? [] : [`${words.issued} ${sheet.format.day(report.madeAt)}`]
  sheet.tag('P', () => {
    sheet.drawLines([words.reportNumber], styles.quiet, { ...right, y: sheet.y + 2 })
    sheet.drawLines(number, styles.lead, { ...right, y: sheet.y + 13 })
    sheet.drawLines(issued, styles.quiet, { ...right, y: sheet.y + 15 + number.length * styles.lead.leading })
  })
  sheet.y += Math.max(nameHeight + lines.length * styles.quiet.leading, 26 + number.length * styles.lead.leading) + 8
  sheet.rule(colours.head, 1.2)
  sheet.gap(9)
}

function drawSubject(sheet: Sheet, { content, report, signatures }: ReportToRender): void {
  const { words, format, left, width } = sheet
  const title = sheet.linesOf(words.title, styles.title, width)
  sheet.tag('H1', () => sheet.drawLines(title, styles.title, { x: left, y: sheet.y, width }))
  sheet.y += styles.title.leading + 1
  if (report.number === null) sheet.paragraph(words.draftNote, styles.lead, { after: 3 })
  else if (report.replaces) {
    sheet.paragraph(words.amendment(report.replaces), styles.lead, { after: 1 })
    sheet.paragraph(words.amendmentSentence(report.number, report.replaces), styles.body, { after: 3 })
    if (report.reason) drawFacts(sheet, [[words.amendmentReason, report.reason]])
  }
  const { client, project, design, dates, specification } = content
  const materials = content.materials.map(({ name, code }) => (code === '' ? name : `${name} (${code})`)).join(', ')
  const signedFor = (meaning: string) =>
    signatures
      .filter((signature) => signature.meaning === meaning)
      .map(({ name, role, at }) => words.given(`${name}, ${role}`, format.instant(at)))
      .join('; ')
  drawFacts(sheet, [
    [words.client, joined([client.name, client.contact, client.address])],
    [words.project, joined([project.name, project.kind])],
    [words.reportTo, project.reportTo],
    [words.copiesTo, project.copiesTo],
    [words.design, words.revision(design.name, design.revision)],
    [words.tested, words.testedWords(content.specimens.length, content.mixes.length, materials)],
    [
      words.dates,
      words.datesWords(format.day(dates.received), format.day(dates.firstWork), format.day(dates.lastWork)),
    ],
    [
      words.specification,
      joined([
        specification.version === undefined
          ? specification.name
          : words.specificationVersion(specification.name, specification.version),
        specification.source,
        specification.aggregateType,
        specification.traffic,
      ]),
    ],
    [words.specificationDiffers, specification.differs ?? ''],
    [words.checkedBy, signedFor('checked')],
    [words.approvedBy, signedFor('approved')],
  ])
}

function drawRecommendation(sheet: Sheet, { recommendation }: SignedContent): void {
  const { words, format, left, width } = sheet
  sheet.heading(words.recommendation, { keep: 90 })
  if (recommendation === null) {
    sheet.paragraph(words.recommendationNone)
    return
  }
  const lead = words.recommended(format.digits(recommendation.emulsionPercent))
  const beside = words.recommendedResidual(
    format.digits(recommendation.residualPercent),
    format.digits(recommendation.toleranceResidualPercent),
  )
  const besides = (
    [
      ['water', words.water],
      ['filler', words.filler],
      ['additive', words.additive],
    ] as const
  )
    .flatMap(([key, name]) =>
      recommendation[key] === '' ? [] : [`${name.toLowerCase()} ${format.numbersIn(recommendation[key])}`],
    )
    .join('; ')
  const height = 27
  sheet.artifact(() => {
    sheet.doc.rect(left, sheet.y, width, height).fillColor(colours.wash).fill()
    sheet.doc.rect(left, sheet.y, 3, height).fillColor(colours.head).fill()
  })
  const big = { ...styles.lead, size: 12.5 }
  sheet.tag('P', () => {
    sheet.drawLines([sheet.visible(lead)], big, { x: left + 12, y: sheet.y + 6, width: width / 2 })
    sheet.drawLines([sheet.visible(beside)], styles.strong, {
      x: left + width / 2,
      y: sheet.y + 8.2,
      width: width / 2 - 10,
      align: 'right',
    })
  })
  sheet.y += height + 5
  drawFacts(sheet, [
    [words.besides, besides],
    [words.reason, recommendation.reason],
    [words.givenBy, words.given(recommendation.by, format.instant(recommendation.at))],
  ])
  sheet.paragraph(words.judgement, styles.quiet, { after: 0 })
}

function drawRange(sheet: Sheet, { range }: SignedContent): void {
  const { words, format } = sheet
  sheet.heading(words.range, { keep: 90 })
  sheet.paragraph(range.sentence, styles.strong)
  const end = (name: string, { residualPercent, emulsionPercent, kind, setBy, sentence }: typeof range.minimum) => [
    { text: name, strong: true },
    residualPercent === null ? (kind === 'open' ? words.open : words.notFound) : format.fixed(residualPercent, 3),
    emulsionPercent === null ? words.dash : format.fixed(emulsionPercent, 2),
    // What is open is named by nothing: its sentence says why.
    (kind === 'open' || sentence.toLowerCase().includes(setBy.toLowerCase()) ? [sentence] : [setBy, sentence])
      .filter((part) => part !== '')
      .join(': '),
  ]
  const midpoint = range.midpoint === '' ? words.notFound : format.fixed(range.midpoint, 3)
  const midpointEmulsion = range.midpointEmulsion ? format.fixed(range.midpointEmulsion, 2) : words.dash
  drawTable(sheet, {
    columns: [
      { head: words.rangeEnd, fit: true },
      { head: words.residualHead, align: 'right', share: 0.8 },
      { head: words.emulsionHead, align: 'right', share: 0.8 },
      { head: words.setBy, share: 3 },
    ],
    rows: [
      end(words.rangeMinimum, range.minimum),
      end(words.rangeMaximum, range.maximum),
      [
        { text: words.rangeMidpoint, strong: true },
        midpoint,
        midpointEmulsion,
        range.midpoint === '' ? words.dash : words.midpointNote,
      ],
    ],
  })
  if (range.comparison !== '') sheet.paragraph(range.comparison, styles.quiet)
  for (const { sentence } of range.flags) sheet.paragraph(`• ${sentence}`, styles.body, { after: 2 })
}

const verdictColour = {
  pass: colours.head,
  fail: colours.lost,
  undecided: colours.open,
  'not tested': colours.open,
  'no limit held': colours.quiet,
} as const

function drawPanel(sheet: Sheet, content: SignedContent): void {
  const { panel, overall, specification } = content
  const { words, format } = sheet
  sheet.heading(words.panel, { keep: 90 })
  sheet.paragraph(overall, styles.strong)
  drawTable(sheet, {
    columns: [
      { head: words.property, share: 1.4 },
      { head: words.limit, share: 0.95 },
      { head: words.limitSource, share: 1.45 },
      { head: words.value, share: 1.6 },
      { head: words.n, fit: true, align: 'right' },
      { head: words.margin, fit: true, align: 'right' },
      { head: words.verdict, fit: true },
    ],
    rows: [
      ...panel.map((row) => [
        row.label,
        format.numbersIn(row.limit),
        sourceMark({ source: row.limitSource, certainty: row.certainty }),
        foundIn(sheet, row),
        numberIn(sheet, row),
        row.margin === null ? words.dash : format.quantity(row.margin, row.unit),
        verdictCell(sheet, row.verdict),
      ]),
      ...gradationRow(content).map(({ label, verdict, source }) => [
        ...[label, words.bandLimit, source, words.dash, words.dash, words.dash],
        verdictCell(sheet, verdict),
      ]),
    ],
  })
  if (panel.some(({ asked }) => asked !== undefined)) sheet.paragraph(words.fewerNote, styles.quiet)
  drawFacts(sheet, [
    [words.decisionRule, specification.decisionRule],
    [words.comparison, specification.comparison],
    [words.changes, specification.changes.join('\n')],
  ])
  for (const { label, sentence } of panel.filter((row) => saysMore(sheet, row, specification)))
    sheet.paragraph(named(label, sentence), styles.quiet, { after: 1.5 })
}

/**
 * A row's sentence is printed where it says more than the row itself with the decision rule and comparison above: not where it
 * is the plain comparison with the digits that stand in the row.
 */
function saysMore(
  { format }: Sheet,
  { sentence, verdict, value, unit }: SignedContent['panel'][number],
  { comparison, decisionRule }: SignedContent['specification'],
): boolean {
  if (sentence === '' || verdict === 'not tested') return false
  if (value === null) return true
  const plain = sentence.replace(/ Entered, not computed here\.$/, '')
  // More digits are told where fewer would read as the limit itself.
  const placesIn = (text: string) => /^[−-]?\d+(?:[.,](\d+))?/.exec(text)?.[1]?.length ?? 0
  return !(
    /^[−-]?\d/.test(plain) &&
    placesIn(plain) <= Math.max(1, placesIn(format.quantity(value, unit))) &&
    plain.endsWith(`: ${comparison}, ${decisionRule}.`) &&
    plain.split('. ').length === 1
  )
}

const verdictCell = ({ words }: Sheet, verdict: SignedContent['panel'][number]['verdict']) => ({
  text: words.verdicts[verdict],
  strong: true,
  colour: verdictColour[verdict],
})

/** How many tests count, beside how many are asked for where that is more. */
function numberIn({ words }: Sheet, { n, asked }: SignedContent['panel'][number]): string {
  if (n === null) return words.dash
  return asked === undefined ? String(n) : words.nOfAsked(n, asked)
}

/** The value or, where a class answers, the class of each test; with its content and whether it was entered. */
function foundIn({ words, format }: Sheet, row: SignedContent['panel'][number]): string {
  const found = row.value === null ? row.classes : format.quantity(row.value, row.unit)
  if (found === null) return words.dash
  return [
    `${found}${row.at ? ` ${format.numbersIn(row.at)}` : ''}`,
    // What was computed or tested here has a number of tests; all else was entered, the residue with the design.
    ...(row.value !== null && (row.entered || row.n === null) ? [words.enteredMark] : []),
  ].join('\n')
}

/** Sentences that begin with the name of their property already do not bear it twice. */
const named = (label: string, sentence: string) =>
  sentence.startsWith(`${label}:`) ? sentence : `${label}: ${sentence}`

const joined = (parts: readonly string[]) => parts.filter((part) => part !== '').join('; ')
