import { decimal, Decimal, plainDigits } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { conversionFactor } from '../quantity/units.ts'
import type { Unit } from '../quantity/unit-table.ts'
import type { Calculation, CalculationInput, CalculationLine, CalculationOperation } from './calculation.ts'

/** What a line says besides its arithmetic. */
export type LineText = {
  readonly symbol: string
  readonly name: string
  readonly unit: string
  readonly source: string
}

/** Operands are symbols of earlier lines or literal decimal numbers. */
export type CalculationBuilder = {
  /** Records a value that comes from elsewhere, with its digits as they are. */
  readonly input: (text: LineText, value: string, input: CalculationInput) => Decimal
  readonly difference: (text: LineText, from: string, subtract: string) => Decimal
  readonly sum: (text: LineText, ...terms: readonly string[]) => Decimal
  readonly product: (text: LineText, ...factors: readonly string[]) => Decimal
  /** @throws MethodInputError `not-positive` when the divisor is zero */
  readonly quotient: (text: LineText, dividend: string, divisor: string) => Decimal
  readonly mean: (text: LineText, ...values: readonly string[]) => Decimal
  readonly convert: (text: LineText, value: string, from: Unit, to: Unit) => Decimal
  /** y0 + (x − x0)·(y1 − y0)/(x1 − x0). @throws MethodInputError `not-positive` when x1 equals x0 */
  readonly interpolate: (text: LineText, x: string, x0: string, y0: string, x1: string, y1: string) => Decimal
  readonly round: (text: LineText, value: string, decimals: number) => Decimal
  readonly calculation: () => Calculation
}

/** Computes and writes down at once, so that the working shown is the working done. */
export function createCalculation(): CalculationBuilder {
  const lines: CalculationLine[] = []
  const values = new Map<string, Decimal>()

  const add = (text: LineText, op: CalculationOperation, operands: readonly string[], value: Decimal) => {
    const { symbol, name, unit, source } = text
    if (values.has(symbol)) throw new Error(`The symbol ${symbol} stands twice in one calculation.`)
    values.set(symbol, value)
    lines.push({ symbol, name, op, operands, value: plainDigits(value), unit, source })
    return value
  }
  const valueOf = (operand: string) => values.get(operand) ?? decimal(operand)
  const inOrder = (operands: readonly string[], step: (a: Decimal, b: Decimal) => Decimal) =>
    operands.map(valueOf).reduce(step)
  const divide = (name: string, a: Decimal, b: Decimal) => {
    if (b.isZero()) throw new MethodInputError('not-positive', `${name} cannot be computed: its divisor is zero.`)
    return a.div(b)
  }

  return {
    input: (text, value, input) => {
      const { symbol, name, unit, source } = text
      if (values.has(symbol)) throw new Error(`The symbol ${symbol} stands twice in one calculation.`)
      values.set(symbol, decimal(value))
      lines.push({ symbol, name, op: 'input', operands: [], value, unit, source, input })
      return decimal(value)
    },
    difference: (text, a, b) => add(text, 'difference', [a, b], valueOf(a).minus(valueOf(b))),
    sum: (text, ...terms) =>
      add(
        text,
        'sum',
        terms,
        inOrder(terms, (a, b) => a.plus(b)),
      ),
    product: (text, ...factors) =>
      add(
        text,
        'product',
        factors,
        inOrder(factors, (a, b) => a.times(b)),
      ),
    quotient: (text, a, b) => add(text, 'quotient', [a, b], divide(text.name, valueOf(a), valueOf(b))),
    mean: (text, ...terms) => add(text, 'mean', terms, inOrder(terms, (a, b) => a.plus(b)).div(terms.length)),
    convert: (text, value, from, to) => {
      const factor = conversionFactor(from, to)
      return add(text, 'convert', [value, plainDigits(factor)], valueOf(value).times(factor))
    },
    interpolate: (text, x, x0, y0, x1, y1) => {
      const run = valueOf(x).minus(valueOf(x0))
      const rise = valueOf(y1).minus(valueOf(y0))
      const span = valueOf(x1).minus(valueOf(x0))
      const value = valueOf(y0).plus(divide(text.name, run.times(rise), span))
      return add(text, 'interpolate', [x, x0, y0, x1, y1], value)
    },
    round: (text, value, decimals) =>
      add(text, 'round', [value, String(decimals)], valueOf(value).toDecimalPlaces(decimals, Decimal.ROUND_HALF_EVEN)),
    calculation: () => ({ schema: 1, lines: [...lines] }),
  }
}
