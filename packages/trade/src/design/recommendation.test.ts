import { expect, test } from 'vitest'
import type { RangeEnd } from './acceptable-range.ts'
import { recommendationProblems, type RecommendedContent } from './recommendation.ts'
import type { RangeBand } from './range-end.ts'
import type { TestedSpan } from './tested-span.ts'

const band: RangeBand = { from: '5.5', to: '10.5', source: 'ISSA A143 (2010)' }
const span: TestedSpan = { from: '6.02', to: '8.05', emulsionPercents: ['12', '14', '16'] }
const end = (value?: string): RangeEnd => ({
  kind: value === undefined ? 'open' : 'crossing',
  ...(value === undefined ? {} : { value }),
  setBy: { words: '' },
  sentence: '',
})
const closed = { outcome: 'closed', ends: { minimum: end('6.5'), maximum: end('7.5') } } as const

function codes(
  recommended: Partial<RecommendedContent>,
  range: Parameters<typeof recommendationProblems>[1] = closed,
  tested: TestedSpan | null = span,
  allowed = band,
) {
  return recommendationProblems(
    { emulsionPercent: '14', residuePercent: '50', ...recommended },
    range,
    tested,
    allowed,
  ).map(({ weight, code }) => `${weight} ${code}`)
}

test('a content inside tested span, band and range can be recommended', () => {
  expect(codes({ toleranceResidualPercent: '0.5' })).toEqual([])
})

test('a content outside the tested span or the band is refused', () => {
  expect(codes({ emulsionPercent: '17' })).toEqual(['refuse outside-tested-span', 'say outside-range'])
  expect(codes({ emulsionPercent: '13' }, closed, span, { ...band, from: '6.6' })).toContain('refuse outside-band')
  expect(codes({}, closed, null)).toEqual(['refuse nothing-tested'])
})

test('a specification may allow any content: its band has no edge', () => {
  const open = { ...closed, ends: { minimum: end(), maximum: end() } }
  expect(codes({}, open, span, { ...band, from: null, to: null })).toEqual([])
})

test('a content that was made counts as tested, though it was weighed a little richer', () => {
  expect(codes({ emulsionPercent: '12' }, { ...closed, ends: { minimum: end(), maximum: end() } })).toEqual([])
})

test('leaving the range, alone or with the tolerance, is said and remains the engineer’s', () => {
  expect(codes({ emulsionPercent: '15.5' })).toEqual(['say outside-range'])
  expect(codes({ toleranceResidualPercent: '0.6' })).toEqual(['say tolerance-outside-range'])
  expect(codes({ toleranceResidualPercent: '2' })).toEqual([
    'say tolerance-outside-band',
    'say tolerance-outside-range',
  ])
  expect(codes({}, { ...closed, outcome: 'no-range' })).toEqual(['say outside-range'])
})

test('at one content, a limit that is not met there is said', () => {
  const one = { outcome: 'one-content', ends: { minimum: end(), maximum: end() } } as const
  const at = (meets: boolean) => ({ ...one, atContent: [{ curveKey: 'h1', x: '7', y: '1', unit: 'g/m²', meets }] })
  const only = { from: '7.01', to: '7.02', emulsionPercents: ['14'] }
  expect(codes({}, at(true), only)).toEqual([])
  expect(codes({}, at(false), only)).toEqual(['say outside-range'])
})
