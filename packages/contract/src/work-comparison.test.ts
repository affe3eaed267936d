import { expect, test } from 'vitest'
import type { PanelRow } from './range.ts'
import { SignedContentSchema, type SignedContent } from './signed-content.ts'
import { compareSigned, compareWork, onlyDiffering } from './work-comparison.ts'

const end = {
  kind: 'open',
  residualPercent: null,
  emulsionPercent: null,
  setBy: '',
  sentence: '',
  calculation: null,
} as const
const row = (verdict: PanelRow['verdict'], more: Partial<PanelRow> = {}): PanelRow => ({
  key: 'cohesion-30',
  label: 'Cohesion, 30 min',
  soak: null,
  limit: 'no limit held',
  limitSource: '',
  certainty: '',
  value: null,
  unit: null,
  at: null,
  n: null,
  verdict,
  margin: null,
  sentence: '',
  calculation: null,
  entered: null,
  classes: null,
  beside: null,
  ...more,
})
const content = (more: Partial<SignedContent> = {}): SignedContent => ({
  schema: '1',
  kind: 'revision',
  laboratory: { name: '', address: '', contact: '', zone: 'UTC', decimalSign: '.', accreditation: '' },
  client: { name: '', contact: '', address: '' },
  project: { name: '', kind: '', reportTo: '', copiesTo: '' },
  design: { id: '', name: '', revisionId: '', revision: '1', fractionUsed: '', scalpedPercent: '' },
  specification: {
    name: '',
    source: '',
    decisionRule: '',
    comparison: '',
    aggregateType: '',
    traffic: '',
    changes: [],
  },
  materials: [],
  enteredResults: [],
  methods: [],
  instruments: [],
  mixes: [],
  specimens: [],
  curves: [],
  range: {
    minimum: end,
    maximum: end,
    midpoint: '',
    midpointCalculation: null,
    sentence: '',
    comparison: '',
    flags: [],
  },
  panel: [],
  overall: '',
  recommendation: null,
  deviations: [],
  corrections: [],
  acknowledgements: [],
  people: [],
  dates: { received: '', firstWork: '', lastWork: '' },
  statements: [],
  ...more,
})
const differing = (signed: SignedContent, now: SignedContent) =>
  onlyDiffering(compareSigned(signed, now)).flatMap(({ rows }) => rows.map(({ key }) => key))

test.each(['undecided', 'not tested'] as const)(
  'a limit taken out, signed as %s, is no change of the record',
  (verdict) => {
    expect(differing(content({ panel: [row(verdict)] }), content({ panel: [row('no limit held')] }))).toEqual([])
  },
)

test('another value or limit, or another verdict, is one', () => {
  const now = content({ panel: [row('no limit held')] })
  expect(differing(content({ panel: [row('pass')] }), now)).toEqual(['verdict'])
  expect(differing(content({ panel: [row('undecided', { value: '12', unit: 'kg cm' })] }), now)).toEqual([
    'verdict',
    'value',
  ])
  expect(differing(content({ panel: [row('undecided', { limit: 'at least 12 kg cm' })] }), now)).toEqual([
    'verdict',
    'limit',
  ])
  expect(differing(now, content({ panel: [row('undecided')] }))).toEqual(['verdict'])
})

const gradation = (passing: string): SignedContent['gradation'] => ({
  sieves: [{ size: '4.75', passing }],
  madeBy: 'entered',
  source: '',
  observedOn: '2026-03-02',
  by: '',
})

test('an approval of content without gradation and trial mixes is held against as much as it holds; a check against all', () => {
  const trialMixes = { cups: [] }
  const now = content({ gradation: gradation('94'), trialMixes, corrections: [] })
  const earlier = SignedContentSchema.parse(JSON.parse(JSON.stringify(content())))
  expect(earlier.gradation).toBeUndefined()
  expect(differing(earlier, now)).toEqual([])
  expect(differing(content({ gradation: gradation('93') }), now)).toEqual(['entered'])
  expect(differing(now, content())).toEqual(['entered'])
  expect(onlyDiffering(compareWork(earlier, now)).flatMap(({ rows }) => rows.map(({ key }) => key))).toEqual([
    'entered',
  ])
})

test('a line for what nobody asks for is no change of content that was signed without it', () => {
  const unasked = row('no limit held', { key: 'unheld:set-time', limitSource: 'not named', value: '28.6', unit: 'min' })
  const panelOf = (...panel: PanelRow[]) => onlyDiffering(compareSigned(content(), content({ panel })))
  expect(panelOf(unasked)).toEqual([])
  const changed = onlyDiffering(
    compareSigned(content({ panel: [unasked] }), content({ panel: [{ ...unasked, value: '29.1' }] })),
  )
  expect(changed.flatMap(({ rows }) => rows.map(({ key }) => key))).toEqual(['value'])
})
