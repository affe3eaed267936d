import { expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import { analyseCurve, type CurvePoint } from './curve.ts'
import { curveValueAt } from './curve-value.ts'

const point = (emulsionPercent: string, replicate: number, x: string, y: string): CurvePoint => ({
  testId: `${emulsionPercent}-${replicate}`,
  resultId: `result-${emulsionPercent}-${replicate}`,
  code: '',
  label: `${emulsionPercent}-${replicate}`,
  mixId: emulsionPercent,
  emulsionPercent,
  x,
  y,
  flags: [],
})
const curve = analyseCurve({
  key: 'h1',
  label: 'Abrasion, 1-hour soak',
  property: 'abrasion-loss',
  soak: '1-hour',
  bears: 'minimum',
  unit: 'g/m²',
  limit: null,
  points: [
    point('12', 1, '6.0', '600'),
    point('12', 2, '6.2', '640'),
    point('14', 1, '7.1', '400'),
    point('16', 1, '8.0', '300'),
  ],
})
const at = (emulsionPercent: string, residualPercent: string) =>
  curveValueAt(curve, { emulsionPercent, residualPercent })

test('at a content that was made the mean of its replicates counts, though it was weighed a little off', () => {
  const found = at('12.0', '6')
  expect(found).toMatchObject({ value: '620', n: 2, kind: 'mean', emulsionPercents: ['12'] })
  expect(found && checkCalculation(found.calculation, '620')).toEqual([])
})

test('between two contents the line counts, and its working can be checked', () => {
  const found = at('13.2', '6.6')
  expect(found).toMatchObject({ value: '510', n: 1, kind: 'line', emulsionPercents: ['12', '14'] })
  expect(found && checkCalculation(found.calculation, '510')).toEqual([])
  // From the results themselves, not from their means alone.
  const results = found?.calculation.lines.flatMap(({ input }) => (input?.kind === 'result' ? [input.id] : []))
  expect(results).toContain('result-12-2')
  expect(results).toContain('result-14-1')
})

test('outside the contents tested nothing is said', () => {
  expect(at('11', '5.5')).toBeUndefined()
  expect(at('17', '8.5')).toBeUndefined()
})
