import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { expect, test } from 'vitest'
import { filledCells } from './sheet-cells.ts'
import { sheetColumns } from './sheet-columns.ts'

const step = {
  key: 'abrade',
  events: ['start'],
  eventLabels: { start: 'Run started' },
  readings: [
    {
      key: 'water',
      label: 'Water in the pan',
      kind: 'number',
      unit: '°C',
      resolution: '0.1',
      plausible: { from: '24', to: '26', source: 'x' },
    },
  ],
} as unknown as StepDeclaration
const rows = [
  { testId: 'a', code: '7KD2', label: '10-1', specimenTestId: 'a' },
  { testId: 'b', code: '7KD3', label: '10-2', specimenTestId: 'b' },
]
const filled = (values: Record<string, string>, commonClock = '') =>
  filledCells((name) => values[name] ?? '', {
    rows,
    columns: sheetColumns(step, { start: 'Begun', end: 'Ended' }),
    instrumentOf: () => undefined,
    parameters: {},
    day: '2026-03-04',
    commonClock,
    at: { zone: 'UTC', deviceNow: Date.parse('2026-03-05T08:00:00Z'), offset: 0 },
  })

test('only filled boxes are sent, row by row, each with the time of its own box or the common one', () => {
  const cells = filled({ 'a/start': '11:22', 'a/water/1': '25,0', 'a/clock': '11:20', 'b/water/1': '25.1' }, '11:40')
  expect(cells.map(({ key, time, refusal, question }) => [key, time?.eventAt, refusal, question])).toEqual([
    ['a/start', '2026-03-04T11:22:00.000Z', undefined, undefined],
    ['a/water/1', '2026-03-04T11:20:00.000Z', undefined, undefined],
    ['b/water/1', '2026-03-04T11:40:00.000Z', undefined, undefined],
  ])
})
test('a box without a time, with a wrong one, with no number or an odd one says so', () => {
  expect(filled({ 'a/water/1': '25' })[0]?.fault).toBe('no-clock')
  expect(filled({ 'a/start': '11:72' })[0]?.fault).toBe('wrong-clock')
  expect(filled({ 'a/water/1': 'warm' }, '9:00')[0]?.refusal).toContain('must be a number')
  expect(filled({ 'a/water/1': '19' }, '9:00')[0]?.question).toContain('19')
})
