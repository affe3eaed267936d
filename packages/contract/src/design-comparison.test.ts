import { describe, expect, test } from 'vitest'
import { decimalsApart, rowOf } from './compared-value.ts'
import { compareDesigns, compareRanges, type ComparedDesign, type ComparedRange } from './design-comparison.ts'
import type { Material } from './materials.ts'
import type { PanelRow, RangeEnd } from './range.ts'

const sample = (kind: Material['kind'], code: string): Material => ({
  id: code,
  code,
  kind,
  name: `Some ${kind}`,
  sourceName: '',
  supplier: 'Supplier',
  lot: 'L-1',
  receivedOn: '2026-03-02',
  note: '',
  createdAt: '2026-03-02T08:00:00Z',
})
const end = (residualPercent: string | null, setBy = 'Abrasion, 6-day soak'): RangeEnd => ({
  kind: residualPercent === null ? 'open' : 'crossing',
  residualPercent,
  emulsionPercent: null,
  setBy,
  sentence: residualPercent === null ? 'Minimum open.' : '',
  calculation: null,
})
const panelRow = (value: string, verdict: PanelRow['verdict']): PanelRow => ({
  key: 'h1',
  label: 'Abrasion, 1-hour soak',
  soak: '1-hour',
  limit: 'at most 538 g/m²',
  limitSource: '',
  certainty: '',
  value,
  unit: 'g/m²',
  at: null,
  n: 3,
  verdict,
  margin: null,
  sentence: '',
  calculation: null,
  classes: null,
  entered: null,
  beside: null,
})
const range = (own: Partial<ComparedRange> = {}): ComparedRange => ({
  minimum: end('6.905'),
  maximum: end('8.2', 'Sand adhesion'),
  midpoint: null,
  sentence: 'Contents meet the limits tested.',
  panel: [panelRow('388.22', 'pass')],
  curves: [],
  ...own,
})
const mix = (emulsionPercent: string, waterPercent: string) => ({
  id: emulsionPercent,
  ordinal: 1,
  emulsionPercent,
  waterPercent,
  fillerPercent: '1',
  additivePercent: '0.2',
})
const design = (own: Partial<ComparedDesign['design']> = {}): ComparedDesign['design'] => ({
  specification: { name: 'Road copy', revision: 1, source: 'Guideline' } as ComparedDesign['design']['specification'],
  materials: {
    aggregate: sample('aggregate', 'A-1'),
    emulsion: sample('emulsion', 'E-1'),
    filler: null,
    additive: null,
    water: null,
  },
  fractionUsed: '',
  scalpedPercent: '',
  residue: null,
  moisture: null,
  mixes: [mix('10', '10'), mix('12', '10')],
  ...own,
})
const side = (own: Partial<ComparedDesign> = {}): ComparedDesign => ({
  design: design(),
  range: range(),
  recommendation: null,
  ...own,
})
/** What differs, as "row of what: difference". */
const differing = (first: ComparedDesign, second: ComparedDesign) =>
  compareDesigns(first, second).flatMap(({ key: part, rows }) =>
    rows
      .filter(({ difference }) => difference !== 'same')
      .map(({ key, of, difference, by }) => [part, key, ...Object.values(of), difference, by ?? ''].join(' ').trim()),
  )

describe('one value beside another', () => {
  const percent = (digits: string) => ({ kind: 'number', digits, unit: '%' }) as const
  test('is compared unrounded, and 12 is 12.0', () => {
    expect(rowOf('x', percent('12'), percent('12.0'))).toMatchObject({ difference: 'same', by: null })
    expect(rowOf('x', percent('6.905'), percent('7.120'))).toMatchObject({ difference: 'differs', by: '0.215' })
    expect(rowOf('x', percent('7.12'), percent('6.905'))).toMatchObject({ by: '-0.215' })
    expect(rowOf('x', percent('1.00000000000000000001'), percent('1'))).toMatchObject({ difference: 'differs' })
  })
  test('in another unit differs, and by how much is not said', () => {
    expect(rowOf('x', percent('12'), { kind: 'number', digits: '12', unit: 'g' })).toMatchObject({
      difference: 'differs',
      by: null,
    })
  })
  test('or none is said', () => {
    expect(rowOf('x', percent('12'), null).difference).toBe('only-first')
    expect(rowOf('x', null, percent('12')).difference).toBe('only-second')
    expect(rowOf('x', null, null).difference).toBe('same')
  })
  test('looks different where it is: with as many decimals as that takes', () => {
    expect(decimalsApart('6.905', '7.12', 3)).toBe(3)
    expect(decimalsApart('6.90512', '6.90538', 3)).toBe(4)
    expect(decimalsApart('6.9', '6.90', 3)).toBe(3)
  })
})

describe('two designs', () => {
  test('that are alike differ in no row, and every part is there', () => {
    expect(differing(side(), side())).toEqual([])
    expect(compareDesigns(side(), side()).map(({ key }) => key)).toEqual([
      'made-of',
      'contents',
      'range',
      'means',
      'panel',
      'recommendation',
    ])
  })
  test('differ by the sample, though its name is the same', () => {
    const materials = { ...design().materials, emulsion: sample('emulsion', 'E-2') }
    expect(differing(side(), side({ design: design({ materials }) }))).toEqual(['made-of emulsion differs'])
  })
  test('are paired by content, whatever zeros were typed; a content of one alone is said', () => {
    const other = side({ design: design({ mixes: [mix('12.0', '9.5'), mix('14', '9')] }) })
    expect(differing(side(), other)).toEqual([
      'contents mix-water 10 only-first',
      'contents mix-filler 10 only-first',
      'contents mix-additive 10 only-first',
      'contents mix-water 12 differs -0.5',
      'contents mix-water 14 only-second',
      'contents mix-filler 14 only-second',
      'contents mix-additive 14 only-second',
    ])
  })
  test('differ in the ends of the range, in what set them, and in the panel', () => {
    const other = range({
      minimum: end('7.12', 'Abrasion, 1-hour soak'),
      panel: [panelRow('540.1', 'fail')],
    })
    expect(differing(side(), side({ range: other }))).toEqual([
      'range minimum differs 0.215',
      'range minimum-by differs',
      'panel verdict Abrasion, 1-hour soak differs',
      'panel value Abrasion, 1-hour soak differs 151.88',
    ])
  })
  test('an open end stands with its sentence, never with a number', () => {
    const [first] = compareRanges(range({ minimum: end(null) }), range())
    expect(first?.rows.find(({ key }) => key === 'minimum')).toMatchObject({
      first: { kind: 'words', words: 'Minimum open.' },
      second: { kind: 'number', digits: '6.905' },
      difference: 'differs',
      by: null,
    })
  })
  test('a recommendation of one alone is said', () => {
    const recommendation = {
      id: '1',
      emulsionPercent: '12',
      residualPercent: '7.512',
      toleranceResidualPercent: '0.5',
      water: { from: '8', to: '12' },
      filler: { from: '0.5', to: '1.5' },
      additive: { from: '0', to: '0.4' },
      reason: 'Room to either side',
      by: { membershipId: 'm', name: 'Person', initials: 'P' },
      at: '2026-03-02T08:00:00Z',
    }
    const rows = differing(side(), side({ recommendation }))
    expect(rows).toHaveLength(10)
    expect(rows[0]).toBe('recommendation emulsion-content only-second')
    expect(
      differing(side({ recommendation }), side({ recommendation: { ...recommendation, emulsionPercent: '12.5' } })),
    ).toEqual(['recommendation emulsion-content differs 0.5'])
  })
})
