import { expect, test } from 'vitest'
import { builtInMethods } from '../methods/catalogue.ts'
import { isUnit } from '../quantity/unit-table.ts'
import { chartPoints, type MethodChart } from './method-chart.ts'

const chart: MethodChart = {
  key: 'torque',
  title: 'Torque',
  x: { label: 'After casting', unit: 'min' },
  y: { label: 'Torque', unit: 'kg·cm' },
  lines: [
    {
      points: [
        { x: { at: '30' }, y: { reading: { step: 'twist-30', key: 'torque' } } },
        { x: { at: '60' }, y: { result: 'torque-60' } },
      ],
    },
    { label: 'By content', points: [{ x: { content: true }, y: { result: 'torque-60' } }] },
  ],
}
const reading = { id: 'r', step: 'twist-30', key: 'torque', repeat: 1, value: '12.5', unit: 'kg·cm' }
const result = { key: 'torque-60', value: '20', unit: 'kg·cm' }

test('a point is drawn where both of its values are there', () => {
  expect(chartPoints(chart, { readings: [reading], results: [result], content: '12' })).toEqual([
    { line: 0, x: '30', y: '12.5' },
    { line: 0, x: '60', y: '20' },
    { line: 1, x: '12', y: '20' },
  ])
  expect(chartPoints(chart, { readings: [], results: [], content: '12' })).toEqual([])
})

test('nothing of another unit is drawn', () => {
  const other = { ...reading, unit: 'N·m' }
  expect(chartPoints(chart, { readings: [other], results: [{ ...result, unit: 'N·m' }], content: null })).toEqual([])
})

test('every reading and result that a chart of a method names is there, in the unit of its axis', () => {
  const charted = builtInMethods.flatMap((method) => (method.chart ? [{ method, chart: method.chart }] : []))
  expect(charted.map(({ method }) => method.key)).toEqual(
    expect.arrayContaining(['cohesion', 'trial-mix', 'loaded-wheel-displacement']),
  )
  for (const { method, chart: own } of charted)
    for (const { x, y } of own.lines.flatMap(({ points }) => points))
      for (const [value, { unit }] of [[x, own.x] as const, [y, own.y] as const]) {
        expect(isUnit(unit), `${method.key}, ${unit}`).toBe(true)
        if ('result' in value)
          expect(
            method.results.some(({ key, unit: of }) => key === value.result && of === unit),
            `${method.key}, ${value.result}`,
          ).toBe(true)
        if ('reading' in value) {
          const step = method.steps.find(({ key }) => key === value.reading.step)
          const declared = step?.readings.find(({ key }) => key === value.reading.key)
          expect(declared?.unit, `${method.key}, ${value.reading.step}/${value.reading.key}`).toBe(unit)
        }
      }
})
