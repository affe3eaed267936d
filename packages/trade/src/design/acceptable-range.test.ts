import fc from 'fast-check'
import { expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import { decimal } from '../quantity/decimal.ts'
import { acceptableRange, type AcceptableRange, type RangeInput } from './acceptable-range.ts'
import type { CurveInput } from './curve.ts'
import type { RangeBand } from './range-end.ts'

const band: RangeBand = { from: '5.5', to: '10.5', source: 'ISSA A143 (2010)' }
const words = {
  h1: { label: 'Abrasion, 1-hour soak', property: 'abrasion-loss', soak: '1-hour', bears: 'minimum', limit: '538' },
  d6: { label: 'Abrasion, 6-day soak', property: 'abrasion-loss', soak: '6-day', bears: 'minimum', limit: '807' },
  sand: { label: 'Sand adhesion', property: 'sand-adhesion', soak: null, bears: 'maximum', limit: '538' },
} as const

/** A curve of single results: content → result, the content also naming the mix. */
function curve(key: keyof typeof words, results: Readonly<Record<string, number | readonly number[]>>): CurveInput {
  const { limit, ...text } = words[key]
  return {
    key,
    ...text,
    unit: 'g/m²',
    limit: { value: limit, unit: 'g/m²', sense: 'max', label: `Limit of ${text.label}`, source: 'ISSA A143 (2010)' },
    points: Object.entries(results).flatMap(([x, ys]) =>
      [ys].flat().map((y, index) => ({
        testId: `${key}-${x}-${index}`,
        resultId: `result-${key}-${x}-${index}`,
        code: '',
        label: `${x}-${index + 1}`,
        mixId: x,
        emulsionPercent: String(Number(x) * 2),
        x,
        y: String(y),
        flags: [],
      })),
    ),
  }
}

const falling = { 6: 700, 7: 500, 8: 300 }
const rising = { 6: 200, 7: 400, 8: 600 }
function range(curves: readonly CurveInput[], change: Partial<RangeInput> = {}): AcceptableRange {
  return acceptableRange({ curves, band, residuePercent: '50', ...change })
}
function keys({ flags }: AcceptableRange) {
  return [...new Set(flags.map(({ key }) => key))].filter((key) => key !== 'few-replicates')
}

test('an end is the crossing of the line between means, and its working can be checked', () => {
  const found = range([curve('h1', falling), curve('sand', rising)])
  expect(found.outcome).toBe('closed')
  expect(found.ends.minimum).toMatchObject({ kind: 'crossing', value: '6.81', emulsionPercent: '13.62' })
  expect(found.ends.maximum).toMatchObject({ kind: 'crossing', value: '7.69' })
  expect(found.midpoint?.value).toBe('7.25')
  for (const { calculation, value } of [found.ends.minimum, found.ends.maximum, found.midpoint ?? {}] as const) {
    if (!calculation) throw new Error('An end without its working.')
    expect(checkCalculation(calculation, value)).toEqual([])
  }
  expect(found.ends.minimum.calculation?.lines.at(-1)?.op).toBe('interpolate')
  expect(found.sentence).toBe(
    'Contents from 6.810 to 7.690 % residual binder (13.62 to 15.38 % emulsion) meet the limits tested.',
  )
})

test('the greater of the soaks sets the minimum, and is named', () => {
  const found = range([curve('h1', falling), curve('d6', { 6: 1000, 7: 900, 8: 600 }), curve('sand', rising)])
  expect(found.ends.minimum).toMatchObject({
    kind: 'crossing',
    value: '7.31',
    setBy: { curveKey: 'd6', property: 'abrasion-loss', soak: '6-day', words: 'Abrasion, 6-day soak' },
  })
})

test('a crossing outside the band gives way to the band’s edge', () => {
  const narrow = { from: '7', to: '7.5', source: 'the contract' }
  const found = range([curve('h1', falling), curve('sand', rising)], { band: narrow })
  expect(found.outcome).toBe('closed')
  expect(found.ends.minimum).toMatchObject({
    kind: 'band',
    value: '7',
    setBy: { words: 'lower edge of the band, the contract' },
  })
  expect(found.ends.maximum).toMatchObject({ kind: 'band', value: '7.5' })
  expect(found.midpoint?.value).toBe('7.25')
  expect(found.ends.minimum.sentence).toContain('abrasion, 1-hour soak meets its limit from 6.810 %, outside the band')
})

test('without a crossing an end is the band’s edge where tested contents reach it', () => {
  const found = range([curve('h1', { 5.5: 500, 8: 300, 11: 200 }), curve('sand', { 5.5: 100, 8: 200, 11: 300 })])
  expect(found.ends).toMatchObject({
    minimum: { kind: 'band', value: '5.5' },
    maximum: { kind: 'band', value: '10.5' },
  })
  expect(found.outcome).toBe('closed')
  expect(found.midpoint?.value).toBe('8')
})

test('without a crossing and short of the band an end is open, with the last tested content named, and no midpoint', () => {
  const found = range([curve('h1', { 6: 300, 7: 250, 8: 200 }), curve('sand', { 6: 200, 7: 300, 8: 400 })])
  expect(found.outcome).toBe('open')
  expect(found.ends.minimum).toMatchObject({
    kind: 'open',
    lastTested: { x: '6', emulsionPercent: '12', curveKey: 'h1' },
  })
  expect(found.ends.maximum).toMatchObject({ kind: 'open', lastTested: { x: '8', emulsionPercent: '16' } })
  expect(found.ends.minimum.value).toBeUndefined()
  expect(found.ends.minimum.sentence).toBe(
    'Minimum open: the last content tested is 12 % emulsion (6.000 % residual binder).',
  )
  expect(found.midpoint).toBeUndefined()
  expect(keys(found)).toEqual([])
})

test('one open end leaves the other as it is', () => {
  const found = range([curve('h1', falling), curve('sand', { 6: 200, 7: 300, 8: 400 })])
  expect(found.outcome).toBe('open')
  expect(found.ends).toMatchObject({ minimum: { kind: 'crossing', value: '6.81' }, maximum: { kind: 'open' } })
  expect(found.midpoint).toBeUndefined()
})

test('“extend the series” is said when no tested content meets a limit and the band goes on on the passing side', () => {
  const poor = range([curve('h1', { 6: 900, 7: 800, 8: 700 }), curve('sand', rising)])
  expect(poor.outcome).toBe('not-determined')
  expect(poor.ends.minimum.kind).toBe('none')
  expect(poor.ends.maximum).toMatchObject({ kind: 'crossing', value: '7.69' })
  expect(poor.flags.find(({ key }) => key === 'extend-series')?.sentence).toContain('richer contents')
  const tacky = range([curve('h1', falling), curve('sand', { 6: 600, 7: 700, 8: 800 })])
  expect(tacky.flags.find(({ key }) => key === 'extend-series')?.sentence).toContain('leaner contents')
})

test('it is not said where the tested contents reach the end of the band: then there is no range', () => {
  const poor = range([curve('h1', { 6: 900, 8: 800, 10.5: 700 }), curve('sand', { 6: 100, 8: 200, 10.5: 300 })])
  expect(poor.outcome).toBe('no-range')
  expect(keys(poor)).toEqual(['no-range'])
  const tacky = range([curve('h1', { 5.5: 500, 7: 400 }), curve('sand', { 5.5: 600, 7: 700 })])
  expect(tacky.outcome).toBe('no-range')
})

test('a minimum above the maximum is no range, and both are still said', () => {
  const found = range([curve('h1', { 6: 900, 7: 700, 8: 400 }), curve('sand', { 6: 300, 7: 600, 8: 700 })])
  expect(found.outcome).toBe('no-range')
  expect(found.ends).toMatchObject({ minimum: { kind: 'crossing', value: '7.54' }, maximum: { kind: 'crossing' } })
  expect(found.sentence).toBe(
    'No range: the minimum, 7.540 %, lies above the maximum, 6.793 % residual binder. No content meets all limits.',
  )
  expect(found.midpoint).toBeUndefined()
})

test('a limit that is met only beyond the band is no range', () => {
  const found = range([curve('h1', { 9: 900, 10: 700, 11: 400 }), curve('sand', { 9: 100, 10: 200, 11: 300 })])
  expect(found.outcome).toBe('no-range')
  expect(found.sentence).toBe('No range: inside the band no content meets the limit of abrasion, 1-hour soak.')
  const lean = range([curve('h1', { 5: 500, 6: 400 }), curve('sand', { 5: 500, 5.2: 600, 6: 700 })])
  expect(lean.outcome).toBe('no-range')
})

test('an abrasion curve that turns is named, and its highest downward crossing counts', () => {
  const found = range([curve('h1', { 6: 700, 6.5: 500, 7: 600, 7.5: 400, 8: 300 }), curve('sand', { 6: 200, 8: 600 })])
  expect(found.ends.minimum).toMatchObject({ kind: 'crossing', value: '7.155' })
  expect(keys(found)).toContain('non-monotone')
  expect(found.flags.find(({ key }) => key === 'non-monotone')?.sentence).toContain(
    'between 13 and 14 % emulsion. Where it meets its limit more than once, the highest content at which it falls through its limit counts',
  )
})

test('an adhesion curve that turns is named, and its lowest upward crossing counts', () => {
  const found = range([curve('h1', falling), curve('sand', { 6: 300, 7: 500, 7.2: 600, 7.4: 500, 8: 700 })])
  expect(found.ends.maximum).toMatchObject({ kind: 'crossing', value: '7.076' })
  expect(keys(found)).toContain('non-monotone')
})

test('a curve that goes back through its limit bounds the other end too: no content in the range fails', () => {
  const found = range([curve('h1', { 6: 700, 7: 500, 8: 700 }), curve('sand', { 6: 100, 7: 200, 8: 300 })])
  expect(found.ends).toMatchObject({
    minimum: { value: '6.81' },
    maximum: { kind: 'crossing', value: '7.19', setBy: { curveKey: 'h1' } },
  })
  expect(keys(found)).toEqual(['non-monotone', 'crosses-back'])
})

test('a mean on its limit meets it, and is the end where the curve bears on that side', () => {
  const found = range([curve('h1', { 6: 538, 7: 500 }), curve('sand', { 6: 200, 7: 538 })])
  expect(found.ends).toMatchObject({
    minimum: { kind: 'crossing', value: '6' },
    maximum: { kind: 'crossing', value: '7' },
  })
  const { calculation } = found.ends.minimum
  expect(calculation && checkCalculation(calculation, '6')).toEqual([])
  const inside = range([curve('h1', { 6: 700, 7: 538, 8: 400 }), curve('sand', rising)])
  expect(inside.ends.minimum.value).toBe('7')
})

test('at one content there is a verdict for each test, no curve and no range', () => {
  const found = range([curve('h1', { 7: [500, 520, 510] }), curve('sand', { 7: [600, 550, 580] }), curve('d6', {})])
  expect(found.outcome).toBe('one-content')
  expect(found.ends).toMatchObject({ minimum: { kind: 'none' }, maximum: { kind: 'none' } })
  expect(found.atContent).toMatchObject([
    { curveKey: 'h1', y: '510', meets: true },
    { curveKey: 'sand', meets: false },
  ])
  expect(keys(found)).toEqual(['one-content', 'missing-method'])
  expect(found.sentence).toContain('abrasion, 1-hour soak meets its limit, sand adhesion does not meet its limit')
  expect(keys(range([curve('h1', { 5: 500 })]))).toEqual(['one-content', 'outside-band'])
})

test('what is asked for and not tested is named: its end is never closed by the band, and there is no midpoint', () => {
  const withoutSand = range([curve('h1', { 6: 700, 8: 400, 11: 300 }), curve('sand', {})])
  expect(withoutSand.ends.maximum).toMatchObject({ kind: 'open', lastTested: { x: '11' } })
  expect(withoutSand.ends.maximum.sentence).toContain('. Sand adhesion is not tested.')
  expect(keys(withoutSand)).toEqual(['missing-method'])
  const withoutSixDays = range([curve('h1', falling), curve('d6', {}), curve('sand', rising)])
  expect(withoutSixDays.ends.minimum.sentence).toContain('at least')
  expect(withoutSixDays.midpoint).toBeUndefined()
})

test('an end that the specification does not ask for is the band’s edge or open', () => {
  expect(range([curve('h1', { 6: 700, 8: 400, 11: 300 })]).ends.maximum).toMatchObject({ kind: 'band', value: '10.5' })
  expect(range([curve('h1', falling)]).ends.maximum).toMatchObject({ kind: 'open', lastTested: { x: '8' } })
})

test('a crossing where the other soak was never tested leaves the end open there', () => {
  const found = range([curve('h1', { 6: 700, 7: 500, 8: 300 }), curve('d6', { 7: 700, 8: 500 }), curve('sand', rising)])
  expect(found.ends.minimum).toMatchObject({ kind: 'open', lastTested: { x: '7', curveKey: 'd6' } })
  expect(keys(found)).toContain('tested-unequally')
})

test('contents are the same mix though weighed a little differently', () => {
  const d6 = curve('d6', { 6: 800, 7: 600, 8: 500 })
  const slightlyRicher = { ...d6, points: d6.points.map((point) => ({ ...point, x: String(Number(point.x) + 0.05) })) }
  const found = range([curve('h1', { 6: 540, 7: 340, 8: 300 }), slightlyRicher, curve('sand', rising)])
  expect(found.ends.minimum).toMatchObject({ kind: 'crossing', value: '6.01' })
  expect(found.testedSpan).toEqual({ from: '6', to: '8.05', emulsionPercents: ['12', '14', '16'] })
})

test('nothing is said inside a band that no tested content lies in', () => {
  const found = range([curve('h1', { 3: 700, 4: 300 }), curve('sand', rising)])
  expect(found.outcome).toBe('not-determined')
  expect(found.ends.minimum.kind).toBe('none')
  expect(keys(found)).toContain('outside-band')
})

test('a limit is compared in its own unit: results in another set nothing', () => {
  const feet = { ...curve('h1', { 6: 60, 7: 40 }), unit: 'g/ft²' }
  expect(keys(range([feet, curve('sand', rising)]))).toContain('other-unit')
  expect(range([feet]).outcome).toBe('nothing-tested')
})

test('without a limit a curve sets no end; without results nothing is said', () => {
  expect(keys(range([{ ...curve('h1', falling), limit: null }, curve('sand', rising)]))).toEqual(['no-limit-held'])
  expect(keys(range([]))).toEqual(['nothing-tested'])
  expect(range([curve('h1', {})]).flags.map(({ key }) => key)).toEqual(['nothing-tested', 'missing-method'])
})

test('declared values set no end and leave their contents to be recommended', () => {
  const declared = { ...curve('h1', falling), limit: null }
  const found = range([declared])
  expect(found).toMatchObject({
    outcome: 'nothing-tested',
    sentence: 'Nothing tested can be held against a limit: no range follows from it.',
    ends: { minimum: { kind: 'none' }, maximum: { kind: 'none' } },
    testedSpan: { from: '6', to: '8', emulsionPercents: ['12', '14', '16'] },
  })
  // Where a limit is held and nothing of it is tested, the contents are not yet tested by every test.
  expect(range([declared, curve('sand', {})]).testedSpan).toBeNull()
})

const results = fc.array(fc.tuple(fc.integer({ min: 300, max: 1300 }), fc.integer({ min: 50, max: 1200 })), {
  maxLength: 14,
})
const drawn = fc.record({
  h1: results,
  d6: results,
  sand: results,
  lower: fc.option(fc.integer({ min: 400, max: 700 }), { nil: null }),
  upper: fc.option(fc.integer({ min: 750, max: 1200 }), { nil: null }),
})
type Drawn = typeof drawn extends fc.Arbitrary<infer T> ? T : never

function inputOf({ h1, d6, sand, lower, upper }: Drawn): RangeInput {
  const drawnCurve = (key: keyof typeof words, pairs: readonly (readonly [number, number])[]): CurveInput => ({
    ...curve(key, {}),
    points: pairs.map(([hundredths, y], index) => {
      const target = String(Math.round(hundredths / 100))
      const point = { testId: `${key}-${index}`, resultId: `r-${key}-${index}`, code: '', label: `${target}-${index}` }
      return { ...point, mixId: target, emulsionPercent: target, x: String(hundredths / 100), y: String(y), flags: [] }
    }),
  })
  const digits = (hundredths: number | null) => (hundredths === null ? null : String(hundredths / 100))
  return {
    curves: [drawnCurve('h1', h1), drawnCurve('d6', d6), drawnCurve('sand', sand)],
    band: { from: digits(lower), to: digits(upper), source: 'a drawn band' },
    residuePercent: '62.6',
  }
}

test('whatever is measured, an end lies inside the tested contents or on the band’s edge, and its working holds', () => {
  fc.assert(
    fc.property(drawn.map(inputOf), (input) => {
      const found = acceptableRange(input)
      expect(JSON.stringify(found)).not.toContain('NaN')
      const contents = found.curves.flatMap(({ means }) => means.map(({ x }) => decimal(x)))
      for (const end of [found.ends.minimum, found.ends.maximum]) {
        if (end.value === undefined) continue
        const value = decimal(end.value)
        const isEdge = end.value === input.band.from || end.value === input.band.to
        expect(end.kind).toBe(isEdge && end.kind === 'band' ? 'band' : 'crossing')
        expect(contents.some((x) => x.lte(value)) && contents.some((x) => x.gte(value))).toBe(true)
        expect(end.calculation && checkCalculation(end.calculation, end.value)).toEqual([])
      }
    }),
    { numRuns: 150 },
  )
})

test('whatever is measured, every mean inside a closed range meets its limit', () => {
  fc.assert(
    fc.property(drawn.map(inputOf), (input) => {
      const { outcome, ends, curves } = acceptableRange(input)
      const { minimum, maximum } = ends
      if (outcome !== 'closed' || minimum.value === undefined || maximum.value === undefined) return
      expect(decimal(minimum.value).lte(maximum.value)).toBe(true)
      for (const { means } of curves)
        for (const { x, meets } of means)
          if (decimal(x).gt(minimum.value) && decimal(x).lt(maximum.value)) expect(meets).toBe(true)
    }),
    { numRuns: 150 },
  )
})

test('the order in which specimens come in changes nothing', () => {
  const shuffled = drawn.map(inputOf).chain((input) =>
    fc
      .tuple(...input.curves.map(({ points }) => fc.shuffledSubarray([...points], { minLength: points.length })))
      .map((orders) => ({
        input,
        other: { ...input, curves: input.curves.map((each, index) => ({ ...each, points: orders[index] ?? [] })) },
      })),
  )
  fc.assert(
    fc.property(shuffled, ({ input, other }) => {
      const { curves, ...found } = acceptableRange(input)
      const { curves: otherCurves, ...otherFound } = acceptableRange(other)
      expect(otherFound).toEqual(found)
      expect(otherCurves.map(({ means }) => means)).toEqual(curves.map(({ means }) => means))
    }),
  )
})

test('every sentence begins with a capital letter, wherever it stands', () => {
  const shown = [
    range([curve('h1', falling), curve('d6', {}), curve('sand', {})]),
    range([curve('h1', { 6: 900, 8: 800 }), curve('d6', {}), curve('sand', rising)]),
    range([curve('h1', { 6: 700, 7: 500, 8: 300 }), curve('d6', { 7: 700, 8: 500 }), curve('sand', rising)]),
    range([curve('h1', { 6: 700, 7: 500, 8: 600 }), curve('sand', { 6: 600, 7: 560, 8: 700 })]),
    range([curve('h1', { 7: 500 }), curve('sand', { 7: 600 })]),
    range([curve('h1', {})]),
  ].flatMap(({ sentence, ends, flags }) => [
    sentence,
    ends.minimum.sentence,
    ends.maximum.sentence,
    ...flags.map((flag) => flag.sentence),
  ])
  for (const sentence of shown) for (const part of sentence.split(/(?<=\.) /)) expect(part).toMatch(/^[A-Z]/)
})

test('contents with as few results are named in one sentence, those with other numbers in another', () => {
  const few = curve('h1', { 6: [700, 702], 7: [500, 502], 8: [300, 302], 9: 250, 10: [200, 202, 204] })
  const said = range([few]).flags.filter(({ key }) => key === 'few-replicates')
  expect(said).toEqual([
    {
      key: 'few-replicates',
      curveKey: 'h1',
      sentence: expect.stringMatching(/, 18 % emulsion: a single result \(n = 1\)\.$/),
    },
    {
      key: 'few-replicates',
      curveKey: 'h1',
      sentence: expect.stringMatching(/ at 12, 14 and 16 % emulsion: two results at each content \(n = 2\)\.$/),
    },
  ])
})
