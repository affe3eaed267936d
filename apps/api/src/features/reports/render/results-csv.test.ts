import { describe, expect, test } from 'vitest'
import { resultsCsv } from './results-csv.ts'
import { sampleContent } from './sample-content.ts'
import { sampleEntered } from './sample-entered.ts'

const content = sampleContent()
const lines = (csv: string) => csv.slice(1).trimEnd().split('\r\n')

describe('results for spreadsheets', () => {
  test('begin with a byte-order mark and hold a row for each specimen and result', () => {
    const csv = resultsCsv(content, { decimalSign: '.' })
    expect(csv.codePointAt(0)).toBe(0xfeff)
    const results = content.specimens.reduce((sum, specimen) => sum + specimen.results.length, 0)
    expect(lines(csv)).toHaveLength(1 + results)
  })

  test('name units in the heads and give readings as typed', () => {
    const [head, first] = lines(resultsCsv(content, { decimalSign: '.' }))
    expect(head).toContain('W1 (g)')
    expect(head).toContain('Emulsion, as weighed (% of dry aggregate)')
    expect(first).toContain('759.5,740.7')
  })

  test('a result is a number beside its unit', () => {
    const withUnits = content.specimens.map((one) => ({
      ...one,
      results: one.results.map((result) => ({ ...result, shown: `${result.shown}\u00a0${result.unit}` })),
    }))
    const csv = resultsCsv({ ...content, specimens: withUnits }, { decimalSign: '.' })
    expect(csv).toBe(resultsCsv(content, { decimalSign: '.' }))
  })

  test('part cells by a semicolon where the decimal sign is a comma', () => {
    const [, first] = lines(resultsCsv(content, { decimalSign: ',' }))
    expect(first).toContain(';759,5;740,7;')
    expect(first).toContain(';18,8;18,8;')
  })

  test('a specimen without a result keeps its row', () => {
    const specimens = [{ ...content.specimens[0]!, results: [], state: 'void' }]
    expect(lines(resultsCsv({ ...content, specimens }, { decimalSign: '.' }))).toHaveLength(2)
  })

  test('a label that reads as a date never stands alone', () => {
    const rows = lines(resultsCsv(content, { decimalSign: '.' }))
    const { code, label } = content.specimens[0]!
    expect(label).toMatch(/^\d+-\d+$/)
    expect(rows[1]).toMatch(new RegExp(`^${code},${label} \\(${code}\\),`))
    // Digits parted by a hyphen or a slash are what spreadsheets take for dates.
    expect(rows.slice(1).flatMap((row) => row.match(/(?<=^|,)\d+[-/]\d+(?=,|$)/g) ?? [])).toEqual([])
  })

  test('a corrected reading says what stood before', () => {
    const first = content.specimens[0]!
    const readings = [{ ...first.readings[0]!, corrected: '737.7 (digits transposed)' }]
    const csv = resultsCsv({ ...content, specimens: [{ ...first, readings }] }, { decimalSign: '.' })
    expect(csv).toContain('corrected: 737.7 (digits transposed), now')
  })

  test.each(['=1+1', '+cmd|x', '-2+3', '@sum(a1)', '\t=1', ' =1', '＝1+1', '\n=1'])(
    'a remark of %j cannot become a formula',
    (remark) => {
      const specimens = [{ ...content.specimens[0]!, remark }]
      expect(resultsCsv({ ...content, specimens }, { decimalSign: '.' })).toContain(`'${remark}`)
    },
  )

  test('what was entered and not computed here has a row of its own that says so', () => {
    const panel = content.panel.map((row) => (row.key === 'mix-time' ? { ...row, entered: sampleEntered } : row))
    const rows = lines(resultsCsv({ ...content, panel }, { decimalSign: ',' }))
    expect(rows).toHaveLength(lines(resultsCsv(content, { decimalSign: ',' })).length + 1)
    expect(rows.at(-1)).toContain(';TB-113, 2017;')
    expect(rows.at(-1)).toContain(';Mix time at 25 °C;s;171,5;171,5;;entered, not computed here;')
    expect(rows.at(-1)).toContain('observed by B. Person')
  })

  test('a true negative number stays a number', () => {
    const [result] = content.specimens[0]!.results
    const specimens = [{ ...content.specimens[0]!, results: [{ ...result!, shown: '-0.4', value: '-0.4' }] }]
    expect(resultsCsv({ ...content, specimens }, { decimalSign: '.' })).toContain(',-0.4,-0.4,')
  })
})
