import { expect, test } from 'vitest'
import { acceptableRange } from './acceptable-range.ts'
import { analyseCurve, type CurveInput } from './curve.ts'
import { unusualSoakRatios } from './soak-ratio.ts'

/** A curve of single losses: emulsion content → loss. */
function soaked(soak: '1-hour' | '6-day', losses: Readonly<Record<string, string>>, unit = 'g/m²'): CurveInput {
  return {
    key: soak,
    label: `Abrasion, ${soak} soak`,
    property: 'abrasion-loss',
    soak,
    bears: 'minimum',
    unit,
    limit: null,
    points: Object.entries(losses).map(([content, y]) => ({
      testId: `${soak}-${content}`,
      resultId: `result-${soak}-${content}`,
      code: '',
      label: content,
      mixId: content,
      emulsionPercent: content,
      x: content,
      y,
      flags: [],
    })),
  }
}
const unusual = (...curves: readonly CurveInput[]) =>
  unusualSoakRatios(curves.map(analyseCurve)).map(({ emulsionPercent, ratio, side }) => [emulsionPercent, ratio, side])
const hour = soaked('1-hour', { 10: '600', 11: '400', 12: '300', 13: '200' })

test('the same loss after six days as after one hour, and three times it, are usual; beyond is said', () => {
  const days = { 10: '600', 11: '1200', 12: '900.3', 13: '199' }
  expect(unusual(hour, soaked('6-day', days))).toEqual([
    ['12', '3.001', 'more'],
    ['13', '0.995', 'less'],
  ])
})

test('nothing is said of a content tested after one soak, in another unit, or without loss after one hour', () => {
  expect(unusual(soaked('6-day', { 10: '2000' }))).toEqual([])
  expect(unusual(hour, soaked('6-day', { 14: '2000' }))).toEqual([])
  expect(unusual(hour, soaked('6-day', { 10: '2000' }, 'g/ft²'))).toEqual([])
  expect(unusual(soaked('1-hour', { 10: '0' }), soaked('6-day', { 10: '2000' }))).toEqual([])
})

test('the range says it in one sentence for all contents of a side', () => {
  const { flags } = acceptableRange({
    curves: [hour, soaked('6-day', { 10: '1900', 11: '1300', 12: '500', 13: '150' })],
    band: { from: null, to: null, source: 'none' },
    residuePercent: null,
  })
  expect(flags.filter(({ key }) => key === 'soak-ratio')).toEqual([
    {
      key: 'soak-ratio',
      curveKey: '6-day',
      sentence:
        'Abrasion, 6-day soak, at 13 % emulsion: 0.75 times the loss after one hour, less than after one hour: look at the weighings and soaks of both (common practice, no source).',
    },
    {
      key: 'soak-ratio',
      curveKey: '6-day',
      sentence:
        'Abrasion, 6-day soak, at 10, 11 % emulsion: 3.17, 3.25 times the loss after one hour, more than 3 times: the mix is sensitive to water (common practice, no source).',
    },
  ])
})
