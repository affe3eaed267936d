import type { EditionParameter } from '@curebook/trade/procedure/declaration'
import { expect, test } from 'vitest'
import { conditionRows } from './condition-rows.ts'

const of = (value: string, unit: string, more: Partial<EditionParameter> = {}): EditionParameter => ({
  value,
  unit,
  label: 'as the edition calls it',
  source: 'ISSA TB-139',
  certainty: 'from memory',
  ...more,
})
const condition = (label: string, targetParameter: string, toleranceParameter?: string) => ({
  label,
  targetParameter,
  ...(toleranceParameter === undefined ? {} : { toleranceParameter }),
})
const settling = [condition('Settling, at least', 'least'), condition('Settling, at most', 'most')]

test('at least and at most of one thing from one source are one row; a tolerance stays with its target', () => {
  const parameters = { least: of('5', 's'), most: of('6', 's'), oven: of('60', '°C'), either: of('3', '°C') }
  expect(conditionRows([...settling, condition('Oven', 'oven', 'either')], parameters)).toEqual([
    { label: 'Settling', target: parameters.least, to: parameters.most },
    { label: 'Oven', target: parameters.oven, tolerance: parameters.either },
  ])
})

test('another unit, another source or another thing keeps its own row, and what the edition lacks has none', () => {
  const rows = (more: Partial<EditionParameter>, conditions = settling) =>
    conditionRows(conditions, { least: of('5', 's'), most: of('6', 's', more) }).map(({ label, to }) => [label, to])
  const apart = [
    ['Settling, at least', undefined],
    ['Settling, at most', undefined],
  ]
  expect(rows({ unit: 'min' })).toEqual(apart)
  expect(rows({ source: 'common practice, no source' })).toEqual(apart)
  expect(rows({}, [settling[0]!, condition('Arc, at most', 'most')])).toEqual([
    ['Settling, at least', undefined],
    ['Arc, at most', undefined],
  ])
  expect(conditionRows(settling, { most: of('6', 's') }).map(({ label }) => label)).toEqual(['Settling, at most'])
})
