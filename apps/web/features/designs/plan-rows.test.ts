import { PlanSeriesSchema } from '@curebook/contract/designs'
import { describe, expect, test } from 'vitest'
import {
  copyDown,
  emptyRow,
  pathOfMethod,
  pathOfSpare,
  planOf,
  rowAfter,
  specimensOf,
  type MethodRow,
} from './plan-rows.ts'

const row = (key: string, emulsionPercent: string) => ({
  key,
  emulsionPercent,
  waterPercent: '10,5',
  fillerPercent: '1.0',
  additivePercent: '0.2 %',
})
const contents = [row('a', '10'), row('b', '11'), row('c', '12')]
const methods: readonly MethodRow[] = [
  { methodKey: 'first', chosen: false, replicates: '3', spares: {} },
  { methodKey: 'second', chosen: true, replicates: '3', spares: { b: '', c: '1' } },
  { methodKey: 'third', chosen: true, replicates: '2', spares: { a: '0' } },
]

describe('a plan as it is sent', () => {
  test('reads either decimal sign, keeps trailing zeros, and passes the contract', () => {
    const plan = PlanSeriesSchema.parse(planOf(contents, methods))
    expect(plan.contents[0]).toEqual({
      emulsionPercent: '10',
      waterPercent: '10.5',
      fillerPercent: '1.0',
      additivePercent: '0.2',
    })
  })
  test('holds the chosen tests only, and spares where a count stands', () => {
    expect(planOf(contents, methods).methods).toEqual([
      { methodKey: 'second', replicates: 3, spares: [{ emulsionPercent: '12', count: 1 }] },
      { methodKey: 'third', replicates: 2, spares: [] },
    ])
  })
  test('leaves what is no number as typed, and the contract refuses it at its own field', () => {
    const wrong = PlanSeriesSchema.safeParse(planOf([row('a', '12 g')], [{ ...methods[1]!, replicates: 'three' }]))
    expect(wrong.error?.issues.map(({ path }) => path.join('.'))).toEqual([
      'contents.0.emulsionPercent',
      'methods.0.replicates',
    ])
  })
})

test('copying down puts the first row’s value in every row and touches no other share', () => {
  const rows = [row('a', '10'), emptyRow('b')]
  expect(copyDown(rows, 'fillerPercent').map(({ fillerPercent }) => fillerPercent)).toEqual(['1.0', '1.0'])
  expect(copyDown(rows, 'fillerPercent')[1]?.waterPercent).toBe('')
})

test('a further row takes over everything but the emulsion', () => {
  expect(rowAfter(contents, 'd')).toEqual({ ...row('d', ''), key: 'd' })
})

test('errors are told at the place of a test among those chosen', () => {
  expect(pathOfMethod(methods, 'third')).toBe('methods.1')
  expect(pathOfSpare(contents, methods, methods[1]!, 'c')).toBe('methods.0.spares.0.count')
})

test('counts the specimens of the chosen tests and their spares', () => {
  expect(specimensOf(contents, methods)).toEqual({ series: 15, spares: 1 })
})
