import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal, plainDigits } from '../quantity/decimal.ts'
import type { Calculation, CalculationLine } from './calculation.ts'
import { createCalculation } from './calculation-builder.ts'
import { checkCalculation } from './calculation-checker.ts'

const text = (symbol: string) => ({ symbol, name: symbol, unit: '1', source: 'test' })
const digits = fc
  .tuple(fc.bigInt({ min: -(10n ** 22n), max: 10n ** 22n }), fc.integer({ min: 0, max: 14 }))
  .map(([whole, places]) => plainDigits(decimal(whole.toString()).div(decimal(10).pow(places))))
const nonZero = digits.filter((value) => !decimal(value).isZero())

test('whatever the builder computes, the checker finds digit for digit', () => {
  fc.assert(
    fc.property(fc.tuple(digits, nonZero, digits, nonZero, digits), ([a, b, c, d, e]) => {
      fc.pre(!decimal(b).eq(d))
      const work = createCalculation()
      const symbols = ['a', 'b', 'c', 'd', 'e'] as const
      const values = [a, b, c, d, e] as const
      symbols.forEach((symbol, index) => work.input(text(symbol), values[index] as string, { kind: 'constant' }))
      work.difference(text('difference'), 'a', 'b')
      work.sum(text('sum'), 'a', 'b', 'c', '0.1')
      work.product(text('product'), 'a', 'c', 'e', '32.9')
      work.quotient(text('quotient'), 'product', 'b')
      work.mean(text('mean'), 'a', 'b', 'c', 'quotient', 'e', 'd', '7')
      work.convert(text('convert'), 'mean', 'g/ft²', 'g/m²')
      work.interpolate(text('interpolate'), 'a', 'b', 'c', 'd', 'e')
      work.round(text('round'), 'interpolate', 3)
      work.round(text('half'), 'a', 0)
      expect(checkCalculation(work.calculation())).toEqual([])
    }),
    { numRuns: 500 },
  )
})

const line = (symbol: string, op: string, operands: readonly string[], value: string) =>
  ({ ...text(symbol), op, operands, value }) as CalculationLine
const calculation = (...lines: readonly CalculationLine[]): Calculation => ({ schema: 1, lines })
const W1 = line('W1', 'input', [], '759.5')
const W2 = line('W2', 'input', [], '740.7')

test('one changed digit is one fault, with what was stored and what is found', () => {
  expect(checkCalculation(calculation(W1, W2, line('D', 'difference', ['W1', 'W2'], '18.9')))).toEqual([
    { symbol: 'D', fault: 'value', stored: '18.9', found: '18.8' },
  ])
  const followed = calculation(
    W1,
    W2,
    line('D', 'difference', ['W1', 'W2'], '18.9'),
    line('R', 'product', ['D', '32.9'], '621.81'),
  )
  expect(checkCalculation(followed).map(({ symbol }) => symbol)).toEqual(['D'])
})

test('a result that is not the last line is a fault', () => {
  const right = calculation(W1, W2, line('D', 'difference', ['W1', 'W2'], '18.8'))
  expect(checkCalculation(right, '18.8')).toEqual([])
  expect(checkCalculation(right, '18.80')).toMatchObject([{ fault: 'other-result' }])
  expect(checkCalculation(calculation(), '18.8')).toMatchObject([{ fault: 'other-result' }])
})

test('a calculation that is no calculation is named, never computed', () => {
  const faultsOf = (...lines: readonly CalculationLine[]) =>
    checkCalculation(calculation(...lines)).map(({ fault }) => fault)
  expect(faultsOf(W1, W1)).toEqual(['repeated-symbol'])
  expect(faultsOf(W1, line('D', 'difference', ['W1', 'W2'], '1'))).toEqual(['unknown-operand'])
  expect(faultsOf(W1, line('D', 'difference', ['D', 'W1'], '1'))).toEqual(['unknown-operand'])
  expect(faultsOf(W1, line('D', 'difference', ['W1'], '1'))).toEqual(['wrong-operands'])
  expect(faultsOf(W1, line('D', 'sum', [], '1'))).toEqual(['wrong-operands'])
  expect(faultsOf(W1, line('D', 'power', ['W1'], '1'))).toEqual(['unknown-operation'])
  expect(faultsOf(W1, line('D', 'quotient', ['W1', '0'], '1'))).toEqual(['division-by-zero'])
  expect(faultsOf(line('W1', 'input', [], 'NaN'))).toEqual(['not-a-number'])
})

test('dividing by zero is refused while computing', () => {
  const work = createCalculation()
  expect(() => work.quotient(text('q'), '1', '0')).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => work.interpolate(text('i'), '1', '2', '3', '2', '5')).toThrow(
    expect.objectContaining({ code: 'not-positive' }),
  )
})
