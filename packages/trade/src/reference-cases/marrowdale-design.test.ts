import { expect, test } from 'vitest'
import { leftOut, withoutTests } from '../design/left-out.ts'
import { acceptableRange, type RangeInput } from '../design/acceptable-range.ts'
import type { CurveInput, CurvePoint } from '../design/curve.ts'
import { recommendationProblems } from '../design/recommendation.ts'
import { residualOfEmulsion } from '../design/residual-binder.ts'
import { batch } from '../methods/batch.ts'
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import type { ObservedReading } from '../procedure/declaration.ts'
import { decimal } from '../quantity/decimal.ts'
import { round } from '../quantity/rounding.ts'
import { pooledScatter } from '../statistics/pooled-scatter.ts'
import design from './marrowdale-design.json' with { type: 'json' }

// A made-up design, from its weighings through the methods to the range; expected values by arithmetic done elsewhere.
type Row = (typeof design.rows)[number]
type PerArea = 'g/m²' | 'g/ft²'

const reading = (step: string, key: string, value: string): ObservedReading => ({
  id: `${step}/${key}`,
  step,
  key,
  repeat: 1,
  value,
  unit: 'g',
})

function residualOf(row: Row): string {
  const input = (value: string) => ({ id: 'entered', value, unit: '%', source: 'entered' })
  const evaluation = batch.evaluate(
    [
      reading('weigh-components', 'aggregate', row.aggregate),
      reading('weigh-components', 'filler', '8.0'),
      reading('weigh-components', 'additive', '1.6'),
      reading('weigh-components', 'water', '80.0'),
      reading('weigh-components', 'emulsion', row.emulsion),
    ],
    {
      parameters: {},
      factors: [],
      inputs: { moisture: input(design.moisturePercent), residue: input(design.residuePercent) },
    },
  )
  return only(evaluation.results.filter(({ key, unit }) => key === 'residual-binder' && unit === '% of dry aggregate'))
}

function resultOf(row: Row, unit: PerArea): string {
  const method = methodByKey(builtInMethods, methodOf(row.soak))
  const factors = (row.soak === null ? design.factors.frame : design.factors.area).map((factor) => ({
    id: factor.unit,
    source: 'record of the machine',
    ...factor,
  }))
  const evaluation = method?.evaluate(
    [reading('weigh-before', 'mass', row.w1), reading('weigh-after', 'mass', row.w2)],
    { parameters: {}, factors, inputs: {} },
  )
  return only(
    (evaluation?.results ?? []).filter((result) => result.key === method?.resultOfRecord && result.unit === unit),
  )
}

function only(results: readonly { readonly value: string }[]): string {
  const [result] = results
  if (!result || results.length > 1) throw new Error(`Expected one result, found ${results.length}.`)
  return result.value
}

function methodOf(soak: string | null): string {
  return soak === '1-hour'
    ? design.methods['1-hour']
    : soak === '6-day'
      ? design.methods['6-day']
      : design.methods.strip
}

const limits = { 'g/m²': { h1: '538', d6: '807', sand: '538' }, 'g/ft²': { h1: '50', d6: '75', sand: '50' } } as const

function curveOf(
  key: 'h1' | 'd6' | 'sand',
  unit: PerArea,
  xOf: (row: Row) => string,
  rows: readonly Row[],
): CurveInput {
  const soak = key === 'h1' ? '1-hour' : key === 'd6' ? '6-day' : null
  const points = rows
    .filter((row) => row.soak === soak)
    .map((row): CurvePoint => {
      const emulsionPercent = row.label.split('-')[0] ?? ''
      const test = `${key} ${row.label}`
      return {
        testId: test,
        resultId: test,
        code: '',
        label: row.label,
        mixId: emulsionPercent,
        emulsionPercent,
        x: xOf(row),
        y: resultOf(row, unit),
        flags: [],
      }
    })
  const limit = { value: limits[unit][key], unit, sense: 'max', label: 'Limit', source: 'ISSA A143 (2010)' } as const
  const label = soak ? `Abrasion, ${soak} soak` : 'Sand adhesion'
  const property = soak ? 'abrasion-loss' : 'sand-adhesion'
  return { key, label, property, soak, bears: soak ? 'minimum' : 'maximum', unit, limit, points }
}

function inputOf(unit: PerArea, xOf = residualOf, rows: readonly Row[] = design.rows): RangeInput {
  return {
    curves: (['h1', 'd6', 'sand'] as const).map((key) => curveOf(key, unit, xOf, rows)),
    band: { from: '5.5', to: '10.5', source: 'ISSA A143 (2010)' },
    residuePercent: design.residuePercent,
  }
}

const crossings = (input: RangeInput) =>
  acceptableRange(input).curves.map(({ crossing }) => round(crossing?.x ?? '', 3, 'half-even'))

test('the clean design meets its limits from 6.905 to 8.280 % residual binder', () => {
  const range = acceptableRange(inputOf('g/m²'))
  const expected = design.expected['g/m²']
  expect(crossings(inputOf('g/m²'))).toEqual([expected.minimum1Hour, expected.minimum6Day, expected.maximumAdhesion])
  expect(range.outcome).toBe('closed')
  expect(range.ends.minimum).toMatchObject({ kind: 'crossing', setBy: { soak: '6-day', curveKey: 'd6' } })
  expect(range.ends.maximum).toMatchObject({ kind: 'crossing', setBy: { curveKey: 'sand' } })
  expect(round(range.ends.minimum.value ?? '', 3, 'half-even')).toBe('6.905')
  expect(round(range.ends.maximum.value ?? '', 3, 'half-even')).toBe('8.280')
  expect(round(range.midpoint?.value ?? '', 2, 'half-even')).toBe(design.expected.midpoint)
  expect(range.sentence).toBe(
    'Contents from 6.905 to 8.280 % residual binder (11.03 to 13.23 % emulsion) meet the limits tested.',
  )
  expect(range.flags.map(({ key, sentence }) => [key, sentence])).toEqual([
    ['few-replicates', 'Sand adhesion, 12 % emulsion: two results (n = 2).'],
  ])
  for (const end of [range.ends.minimum, range.ends.maximum])
    expect(end.calculation && checkCalculation(end.calculation, end.value)).toEqual([])
})

test('in US units, with the factors as published, the same design gives nearly the same range', () => {
  const expected = design.expected['g/ft²']
  expect(crossings(inputOf('g/ft²'))).toEqual([expected.minimum1Hour, expected.minimum6Day, expected.maximumAdhesion])
})

test('target contents and the late disc change the crossings as worked out by hand', () => {
  const target = (row: Row) => residualOfEmulsion(row.label.split('-')[0] ?? '', design.residuePercent)
  expect(crossings(inputOf('g/m²', target))).toEqual(['6.712', '6.913', '8.285'])
  const withoutLate = design.rows.filter(({ soak, label }) => !(soak === '1-hour' && label === '11-3'))
  expect(crossings(inputOf('g/m²', residualOf, withoutLate))[0]).toBe('6.672')
})

test('the late disc does not matter to the range, and the over-poured one does', () => {
  const input = inputOf('g/m²')
  const standing = acceptableRange(input)
  const idOf = (key: string, label: string) =>
    input.curves.find((curve) => curve.key === key)?.points.find((point) => point.label === label)?.testId ?? ''
  const late = leftOut(input, standing, idOf('h1', '11-3'))
  expect(late).toMatchObject({
    changesRange: false,
    sentence:
      'Without 11-3 the range stays as it is. Abrasion, 1-hour soak alone would meet its limit at 6.672 instead of 6.690 %. n = 2 would be left at this content.',
  })
  // By arithmetic done elsewhere: from (6.8741 %, 820.31 g/m²) to (7.5140 %, 536.27 g/m²) the limit of 807 is met at 6.9041 %.
  const poured = leftOut(input, standing, idOf('d6', '12-2'))
  expect(poured?.changesRange).toBe(true)
  expect(poured?.sentence).toBe(
    'Without 12-2: minimum 6.904 instead of 6.905 % residual. n = 2 would be left at this content.',
  )
  expect(leftOut(input, standing, 'not of this design')).toBeNull()
  // As the whole computation finds it from what is left.
  const { testId } = poured!
  expect(poured!.without).toEqual(acceptableRange(withoutTests(input, new Set([testId]))))
})

test('means, standard deviations and pooled scatter are those of the table', () => {
  const { curves } = acceptableRange(inputOf('g/m²'))
  const means = curves.flatMap(({ means: all }) => all)
  expect(
    means.map(({ emulsionPercent, x, y, standardDeviation, n }) => ({
      emulsionPercent,
      x: round(x, 3, 'half-even'),
      mean: round(y, 1, 'half-even'),
      standardDeviation: round(standardDeviation ?? '', 1, 'half-even'),
      n,
    })),
  ).toEqual(
    design.expected.means.map(({ emulsionPercent, x, mean, standardDeviation, n }) => ({
      emulsionPercent,
      x,
      mean,
      standardDeviation,
      n,
    })),
  )
  const pooled = curves.map(({ means: all }) =>
    pooledScatter(
      all.map(({ points }) => points.map(({ y }) => y)),
      'log',
    ),
  )
  expect(
    pooled.map(({ value, degreesOfFreedom }) => ({
      percent: round(decimal(value).times(100).toFixed(), 1, 'half-even'),
      degreesOfFreedom,
    })),
  ).toEqual(design.expected.pooledLogScatter.map(({ percent, degreesOfFreedom }) => ({ percent, degreesOfFreedom })))
})

test('12.0 % emulsion ± 0.5 % residual can be recommended; 9 % can not', () => {
  const input = inputOf('g/m²')
  const range = acceptableRange(input)
  const problems = (emulsionPercent: string, toleranceResidualPercent: string) =>
    recommendationProblems(
      { emulsionPercent, residuePercent: design.residuePercent, toleranceResidualPercent },
      range,
      range.testedSpan,
      input.band,
    ).map(({ code, weight }) => `${weight}: ${code}`)
  expect(problems('12.0', '0.5')).toEqual([])
  expect(problems('12.0', '0.7')).toEqual(['say: tolerance-outside-range'])
  expect(problems('9', '0.5')).toEqual([
    'refuse: outside-tested-span',
    'say: tolerance-outside-band',
    'say: outside-range',
  ])
})
