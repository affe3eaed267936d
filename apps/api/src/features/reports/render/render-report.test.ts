import { panelResultWords } from '@curebook/contract/panel-result-words'
import { SignedContentSchema } from '@curebook/contract/signed-content'
import { describe, expect, test } from 'vitest'
import { readPdf } from '../../../../../../tests/support/pdf-text.ts'
import { renderReport } from './render-report.ts'
import { sampleContent, sampleReport } from './sample-content.ts'
import { sampleEntered } from './sample-entered.ts'

const pdf = await renderReport(sampleReport())
const read = readPdf(pdf)
const { content, report } = sampleReport()
const squeezed = (text: string) => text.replace(/\s+/g, '')

describe('what a report says', () => {
  test.each([
    ['the ends of the range', 'acceptable range 6.905 to 8.280 %'],
    ['the recommendation', '12.0 % emulsion of dry aggregate'],
    ['its tolerance', '7.5 ± 0.5 % residual binder of dry aggregate'],
    ['the digest of what was signed', report.digest],
    ['the check code', report.checkCode!],
    ['the decision rule', 'Simple acceptance, agreed at request'],
    ['that results relate only to the items tested', 'The results relate only to the items tested.'],
    ['who approved', 'Elin Marsh'],
    ['where it ends', 'End of report THS-2026-014'],
  ])('%s', (_, words) => {
    expect(squeezed(read.text)).toContain(squeezed(words))
  })

  test('every specimen with its readings as typed and its result', () => {
    expect(content.specimens).toHaveLength(44)
    const lines = new Set(read.pages.flatMap((page) => page.lines.map(({ text }) => text.trim())))
    for (const { code, label, readings, results } of content.specimens) {
      expect(lines).toContain(`${code}\u00a0\u00a0${label}`)
      for (const { typed, corrected } of readings) expect(lines).toContain(corrected === '' ? typed : `${typed}\u00a0†`)
      for (const { shown } of results) expect(lines).toContain(shown)
    }
  })

  test('a class that answers stands in the first table in place of a value', async () => {
    const classes = 'Quick-set (12-1), Slow-set (12-2)'
    const answered = { classes, at: 'at 12 % emulsion', n: 2, verdict: 'fail' as const }
    const sentence = 'Mix time at 25 °C: Quick-set (12-1), Slow-set (12-2), does not meet what is asked.'
    const panel = content.panel.map((row) => (row.key === 'mix-time' ? { ...row, ...answered, sentence } : row))
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { panel } }))).text)
    expect(shown).toContain(squeezed(`${classes} at 12 % emulsion 2`))
    expect(shown).toContain(squeezed(sentence))
    // Its name is not said twice.
    expect(shown).not.toContain(squeezed('Mix time at 25 °C: Mix time at 25 °C'))
  })

  test('where fewer tests count than are asked for, the first table says both and what it means', async () => {
    const panel = content.panel.map((row, index) => (index === 0 ? { ...row, n: 2, asked: 3 } : row))
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { panel } }))).text)
    const note = squeezed('n, “2 of 3”: fewer tests count than the edition or common practice asks for.')
    expect(shown).toContain(squeezed('2 of 3'))
    expect(shown).toContain(note)
    // Content signed before it was told reads as before.
    expect(squeezed(read.text)).not.toContain(note)
    expect(SignedContentSchema.parse(content).panel).toEqual(content.panel)
  })

  test('under a guard band a chart names the limit beside what is accepted', async () => {
    const [curve, ...others] = content.curves
    const guarded = { held: '538', rule: 'guard band of U = 38 g/m²' }
    const curves = [{ ...curve!, limit: { ...curve!.limit!, value: '500', guarded } }, ...others]
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { curves } }))).text)
    expect(shown).toContain(squeezed('accepted at most 500 g/m² (limit at most 538 g/m²)'))
    expect(shown.split(squeezed('limit at most 538 g/m²')).length).toBeGreaterThan(3)
  })

  test('two coolings of a specimen have a column each, in their order', async () => {
    const [first] = content.specimens
    const at = (step: string, label: string, hour: string) => ({
      ...{ step, label, by: 'B. Person', note: '', receivedAt: `2026-03-02T${hour}:00.000Z` },
      eventAt: `2026-03-02T${hour}:00.000Z`,
    })
    const events = [
      at('Cool down', 'Cooled', '08:01'),
      at('Soak', 'In the bath', '09:02'),
      at('Cool down', 'Cooled', '10:03'),
    ]
    const specimens = [{ ...first!, events }]
    const shown = readPdf(await renderReport(sampleReport({ content: { specimens } }))).text
    const times = ['08:01', '09:02', '10:03'].map((time) => shown.indexOf(time))
    expect(times.every((place) => place >= 0)).toBe(true)
    expect(times).toEqual(times.toSorted((a, b) => a - b))
    expect(squeezed(shown).split(squeezed('Cool down: Cooled'))).toHaveLength(3)
  })

  test('a result has its unit in the head of its column, and not in its cells again', async () => {
    const specimens = content.specimens.map((one) => ({
      ...one,
      results: one.results.map((result) => ({ ...result, shown: `${result.shown}\u00a0${result.unit}` })),
    }))
    expect((await renderReport(sampleReport({ content: { specimens } }))).equals(pdf)).toBe(true)
  })

  test('the working of both ends, the midpoint and every value judged', () => {
    const text = squeezed(read.text)
    for (const name of ['Minimum', 'Maximum', 'Midpoint'])
      expect(text).toContain(squeezed(`${name} of the acceptable range`))
    const judged = content.panel.filter(({ value }) => value !== null)
    expect(judged).toHaveLength(3)
    for (const { label } of judged) expect(text).toContain(squeezed(`Value judged in the panel: ${label}`))
  })

  test('what does not count, with reason and person, and both means of its content', async () => {
    const [curve, ...others] = content.curves
    const { flags: _, ...point } = curve!.points[0]!
    const excluded = [{ ...point, code: 'Z9Z9', kind: 'void' as const, reason: 'Felt tore', by: 'Ada Lindqvist' }]
    const mean = curve!.means[0]!
    const calculation = { schema: 1 as const, lines: [] }
    const both = { ...mean, counting: { y: '685.4', n: 3 }, withExcluded: { y: '701.2', n: 4 }, calculation }
    const curves = [{ ...curve!, excluded, meansWithExcluded: [both] }, ...others]
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { curves } }))).text)
    expect(shown).toContain(squeezed('(10-1) void, does not count: Felt tore (Ada Lindqvist)'))
    expect(shown).toContain(squeezed('emulsion 685.4 g/m² (n = 3); with what does not count 701.2 g/m² (n = 4)'))
    expect(shown).toContain(squeezed('crossed out: void or an unused spare'))
    expect(squeezed(read.text)).not.toContain(squeezed('crossed out'))
  })

  test('what was noted with the same act in the same words stands once, with every specimen it was noted of', async () => {
    const specimens = content.specimens.map((one, at) => ({
      ...one,
      events: one.events.map((event) => ({ ...event, note: at < 3 && event.step === 'Abrade' ? 'hose lot H-07' : '' })),
    }))
    const abraded = specimens.slice(0, 3).filter(({ events }) => events.some(({ note }) => note !== ''))
    expect(abraded.length).toBeGreaterThan(1)
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { specimens } }))).text)
    expect(shown.split('hoselotH-07')).toHaveLength(2)
    expect(shown).toContain(squeezed(`hose lot H-07 (${abraded.map(({ code }) => code).join(', ')})`))
  })

  test('what was entered and not computed here says so beside its value, and how it was found', async () => {
    const entered = { ...sampleEntered, madeBy: 'outside' as const, laboratoryName: 'Fernside Testing' }
    const found = {
      value: '171.5',
      unit: 's',
      verdict: 'pass' as const,
      sentence: 'Entered, not computed here.',
      entered,
    }
    const panel = content.panel.map((row) => (row.key === 'mix-time' ? { ...row, ...found } : row))
    const line = { key: 'mix-time', label: 'Mix time at 25 °C', typed: '171.5', unit: 's', observedOn: '2026-03-02' }
    const enteredResults = [
      ...content.enteredResults,
      { ...line, source: panelResultWords(entered), madeBy: 'outside' as const, by: 'B. Person' },
    ]
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { panel, enteredResults } }))).text)
    expect(shown).toContain(squeezed('171.5 s entered, not computed here'))
    expect(shown).toContain(squeezed('◆ TB-113, 2017; another laboratory, Fernside Testing'))
    expect(squeezed(read.text)).not.toContain(squeezed('another laboratory'))
  })

  test('a gradation stands as it was typed, with where it comes from, and that it is not judged', async () => {
    const gradation = {
      sieves: [
        { size: '9,5', passing: '100' },
        { size: '4.75', passing: '94.0' },
      ],
      madeBy: 'outside' as const,
      source: 'Sieving, 2014; another laboratory, Fernside Testing; Report 12',
      observedOn: '2026-03-02',
      by: 'B. Person',
    }
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { gradation } }))).text)
    expect(shown).toContain(squeezed('Gradation of the aggregate Sieve, mm Passing, % 9,5 100 4.75 94.0'))
    expect(shown).toContain(squeezed('◆ Sieving, 2014; another laboratory, Fernside Testing; Report 12'))
    expect(shown).toContain(squeezed('Entered, not computed here. The specification holds no band for it'))
    const inFile = { ...gradation, sieves: [] }
    const named = squeezed(readPdf(await renderReport(sampleReport({ content: { gradation: inFile } }))).text)
    expect(named).toContain(squeezed('The sieves stand in the file that is named.'))
    expect(squeezed(read.text)).not.toContain(squeezed('Gradation of the aggregate'))
  })

  test('trial mixes stand in an annex, as typed, with the one that was chosen', async () => {
    const cup = {
      emulsion: '12',
      additive: '0',
      filler: '1',
      temperature: '24,6',
      coated: '95',
      clearWater: '',
      by: 'B. Person',
    }
    const cups = [
      { ...cup, number: '1', water: '8', mixTime: '74', remark: 'stiff, broke in cup', chosen: false },
      { ...cup, number: '2', water: '10', mixTime: '171', broke: 'Broke in lumps', remark: 'creamy', chosen: true },
    ]
    const shown = squeezed(readPdf(await renderReport(sampleReport({ content: { trialMixes: { cups } } }))).text)
    expect(shown).toContain(squeezed('Annex: trial mixes'))
    expect(shown).toContain(squeezed('1 12 8 1 0 24,6 74 95'))
    expect(shown.split(squeezed('chosen: its water'))).toHaveLength(2)
    expect(shown).toContain(squeezed('Broke in lumps; creamy; B. Person'))
    expect(squeezed(read.text)).not.toContain(squeezed('Annex: trial mixes'))
  })

  test('an axis that does not begin at zero says so', () => {
    expect(squeezed(read.text)).toContain(squeezed('(broken axis: begins at 6.0, not at zero)'))
  })

  test('what was signed before a midpoint and a value had their working is still a report', async () => {
    const { midpointCalculation: _, comparison: __, ...range } = content.range
    const panel = content.panel.map(({ calculation: ___, ...row }) => row)
    const earlier = SignedContentSchema.parse({ ...content, range, panel })
    const { text } = readPdf(await renderReport({ ...sampleReport(), content: earlier }))
    expect(text).not.toContain('Value judged in the panel')
    expect(text).toContain('Minimum of the acceptable range')
    expect(text).not.toContain('Means are compared')
  })

  test('what was signed before gradation, trial mixes, maker and effect were asked for is still a report', async () => {
    const { gradation: _, trialMixes: __, ...rest } = content
    const earlier = SignedContentSchema.parse({
      ...rest,
      enteredResults: rest.enteredResults.map(({ madeBy: ___, ...entered }) => entered),
      acknowledgements: rest.acknowledgements.map(({ effect: ___, ...said }) => said),
      panel: rest.panel.map(({ entered: ___, ...row }) => row),
    })
    const shown = readPdf(await renderReport({ ...sampleReport(), content: earlier })).text
    expect(shown).toContain('Minimum of the acceptable range')
    expect(shown).not.toContain('Annex: trial mixes')
    expect(shown).not.toContain('Gradation of the aggregate')
  })

  test('beside the range the first page says how its ends were compared', () => {
    expect(squeezed(read.pages[0]!.lines.map(({ text }) => text).join(' '))).toContain(
      squeezed(content.range.comparison),
    )
  })

  test('what was not tested stands in the same size as what passed', () => {
    const lines = read.pages.flatMap((page) => page.lines)
    const sizeOf = (verdict: string) =>
      new Set(lines.filter(({ text }) => text.includes(verdict)).map(({ size }) => size))
    expect(sizeOf('NOT TESTED').size).toBe(1)
    expect(sizeOf('NOT TESTED')).toEqual(sizeOf('PASS'))
    expect(lines.filter(({ text }) => text === '○ NOT TESTED')).toHaveLength(5)
  })

  test('an amendment names the report that it replaces', async () => {
    const amended = sampleReport({ report: { number: 'THS-2026-014/1', amendment: 1, replaces: 'THS-2026-014' } })
    const { text } = readPdf(await renderReport(amended))
    expect(text).toContain('Amendment to report THS-2026-014')
    expect(read.text).not.toContain('Amendment to report')
  })

  test('without a public address it prints the code and no square', async () => {
    const without = readPdf(await renderReport(sampleReport({ report: { checkUrl: null } })))
    const figures = (dictionaries: readonly string[]) =>
      dictionaries.filter((each) => each.includes('/S /Figure')).length
    expect(without.text).toContain(report.checkCode)
    expect(without.text).not.toContain('Scan the square')
    expect(figures(read.dictionaries) - figures(without.dictionaries)).toBe(1)
  })

  test('numbers follow the decimal sign of the laboratory', async () => {
    const laboratory = { ...content.laboratory, decimalSign: ',' }
    const { text } = readPdf(await renderReport(sampleReport({ content: { laboratory } })))
    for (const words of ['6,905', '618,5', '12,0\u00a0% emulsion of dry aggregate']) expect(text).toContain(words)
    expect(text).not.toContain('618.5')
  })

  test('a report with nothing in it is still a report', async () => {
    const nothing = { ...content.range, flags: [], midpoint: '' }
    const bare = sampleContent({
      specimens: [],
      curves: [],
      methods: [],
      instruments: [],
      panel: [],
      range: nothing,
      recommendation: null,
    })
    const { pages, text } = readPdf(await renderReport({ ...sampleReport(), content: bare }))
    expect(pages.length).toBeGreaterThan(0)
    expect(text).toContain('The engineer gives no recommended content with this report.')
  })
})

describe('how it is set', () => {
  test('the same report is the same bytes', async () => {
    expect((await renderReport(sampleReport())).equals(pdf)).toBe(true)
  })

  test('every page bears the report number and its place among the pages', () => {
    read.pages.forEach(({ text }, index) => {
      expect(text).toContain(report.number)
      expect(text).toContain(`Page ${index + 1} of ${read.pages.length}`)
    })
  })

  test('nothing is a raster image', () => {
    expect(read.dictionaries.filter((dictionary) => /\/Subtype \/Image\b/.test(dictionary))).toEqual([])
  })

  test('it is tagged, with its language, and the charts tell their message in words', () => {
    expect(pdf.toString('latin1')).toMatch(/\/Marked true/)
    expect(pdf.toString('latin1')).toMatch(/\/Lang \(en\)/)
    const figures = read.dictionaries.filter((dictionary) => dictionary.includes('/S /Figure'))
    expect(figures.length).toBe(3)
    for (const figure of figures) expect(figure).toContain('/Alt ')
  })

  test('letter paper is letter paper', async () => {
    const { pages } = readPdf(await renderReport(sampleReport({ report: { paper: 'letter' } })))
    for (const { mediaBox } of pages) expect(mediaBox).toEqual([0, 0, 612, 792])
  })

  test('nothing is written into the margins', () => {
    for (const { lines, mediaBox } of read.pages)
      for (const { x, y } of lines) {
        expect(x).toBeGreaterThanOrEqual(40)
        expect(x).toBeLessThan(mediaBox[2]! - 40)
        expect(y).toBeGreaterThan(25)
        expect(y).toBeLessThan(mediaBox[3]! - 25)
      }
  })
})

describe('tables', () => {
  const [specimen] = content.specimens
  const words = Array.from({ length: 60 }, (_, index) => `word${index}`).join(' ')
  const many = Array.from({ length: 150 }, (_, index) => ({
    ...specimen!,
    code: `Z${String(index).padStart(3, '0')}`,
    label: '',
    remark: index % 10 === 0 ? words : '',
  }))

  test('the head stands again on every page that a table reaches', async () => {
    const { pages } = readPdf(await renderReport(sampleReport({ content: { specimens: many } })))
    const holding = pages.filter(({ lines }) => lines.some(({ text }) => /^Z\d{3}$/.test(text.trim())))
    expect(holding.length).toBeGreaterThan(3)
    for (const { lines } of holding) expect(lines.map(({ text }) => text)).toContain('Specimen')
  })

  test('no row is parted between pages', async () => {
    const { pages } = readPdf(await renderReport(sampleReport({ content: { specimens: many } })))
    const counts = pages.map(({ text }) => ['word0 ', 'word59'].map((word) => text.split(word).length - 1))
    for (const [first, last] of counts) expect(first).toBe(last)
    expect(counts.reduce((sum, [first]) => sum + first!, 0)).toBe(15)
  })

  test('a text longer than a page, or without a space, loses nothing', async () => {
    const long = Array.from({ length: 900 }, (_, index) => `part${index}`).join(' ')
    const unbroken = 'x'.repeat(400)
    const at = '2026-03-13T14:20:00.000Z'
    const deviations = [{ code: 'D-1', text: long, decision: unbroken, by: 'Elin Marsh', at }]
    const { text } = readPdf(await renderReport(sampleReport({ content: { deviations } })))
    for (let index = 0; index < 900; index += 1) expect(text).toContain(`part${index}`)
    expect(text.split('x').length - 1).toBeGreaterThanOrEqual(400)
  })
})

describe('characters', () => {
  test('no character of the sample is missing from the fonts', () => {
    expect(read.emptyGlyphs).toBe(0)
    expect(read.text).not.toContain('[U+')
  })

  test('what the fonts lack, and what could not be seen, is named by its number', async () => {
    const client = { ...content.client, name: 'Roads 🦆 道路 \u202eabc\u0007' }
    const strange = readPdf(await renderReport(sampleReport({ content: { client } })))
    expect(strange.emptyGlyphs).toBe(0)
    expect(squeezed(strange.text)).toContain('Roads[U+1F986][U+9053][U+8DEF][U+202E]abc[U+0007]')
  })
})
