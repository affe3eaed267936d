import type { Calculation, CalculationLine } from './calculation.ts'

/**
 * Re-evaluates a stored calculation with arithmetic of its own: no decimal library, nothing of the methods. Whole numbers
 * of any length carry 34 significant digits, halves to even, so a right line agrees digit for digit.
 */
export type CalculationFault = {
  readonly symbol: string
  readonly fault:
    | 'value' // re-evaluated, another number comes out
    | 'repeated-symbol'
    | 'unknown-operand'
    | 'wrong-operands' // too few or too many for the operation
    | 'unknown-operation'
    | 'not-a-number'
    | 'division-by-zero'
    | 'other-result' // the last line is not the result that the record holds
  readonly stored: string
  /** What the checker finds; absent where nothing can be computed. */
  readonly found?: string
}

/** coefficient × 10^exponent */
type Number34 = { readonly coefficient: bigint; readonly exponent: number }
class Fault extends Error {
  constructor(readonly fault: CalculationFault['fault']) {
    super(fault)
  }
}

/**
 * The lines that do not hold, in order; none means that the calculation is right.
 * @param result the stored result: when given, the last line must equal it
 */
export function checkCalculation(calculation: Calculation, result?: string): readonly CalculationFault[] {
  const known = new Map<string, Number34>()
  const faults = calculation.lines.flatMap((line): readonly CalculationFault[] => {
    try {
      if (known.has(line.symbol)) throw new Fault('repeated-symbol')
      const stored = parse(line.value)
      // Later lines are judged on the stored value: one wrong line is one fault.
      known.set(line.symbol, stored)
      if (line.op === 'input') return []
      const found = print(evaluate(line, known))
      return found === line.value ? [] : [{ symbol: line.symbol, fault: 'value', stored: line.value, found }]
    } catch (error) {
      if (!(error instanceof Fault)) throw error
      return [{ symbol: line.symbol, fault: error.fault, stored: line.value }]
    }
  })
  const last = calculation.lines.at(-1)
  if (result === undefined || last?.value === result) return faults
  return [...faults, { symbol: last?.symbol ?? '', fault: 'other-result', stored: result, found: last?.value ?? '' }]
}

function evaluate(line: CalculationLine, known: ReadonlyMap<string, Number34>): Number34 {
  const values = line.operands.map((operand) => operandOf(operand, line.symbol, known))
  const exactly = (count: number) => {
    if (values.length !== count) throw new Fault('wrong-operands')
    return values
  }
  if (values.length === 0) throw new Fault('wrong-operands')
  switch (line.op) {
    case 'difference': {
      const [a, b] = exactly(2) as [Number34, Number34]
      return minus(a, b)
    }
    case 'sum':
      return values.reduce(plus)
    case 'product':
      return values.reduce(times)
    case 'mean':
      return over(values.reduce(plus), { coefficient: BigInt(values.length), exponent: 0 })
    case 'quotient': {
      const [a, b] = exactly(2) as [Number34, Number34]
      return over(a, b)
    }
    case 'convert': {
      const [a, factor] = exactly(2) as [Number34, Number34]
      return times(a, factor)
    }
    case 'interpolate': {
      // A line is through two points by definition: four numbers, and where it is read.
      const [x, x0, y0, x1, y1] = exactly(5) as [Number34, Number34, Number34, Number34, Number34]
      return plus(y0, over(times(minus(x, x0), minus(y1, y0)), minus(x1, x0)))
    }
    case 'round': {
      const [a, decimals] = exactly(2) as [Number34, Number34]
      return cut(a, -Number(print(decimals)))
    }
    default:
      throw new Fault('unknown-operation')
  }
}

function operandOf(operand: string, self: string, known: ReadonlyMap<string, Number34>): Number34 {
  const value = operand === self ? undefined : known.get(operand)
  if (value) return value
  if (!/^-?[0-9]/.test(operand)) throw new Fault('unknown-operand')
  return parse(operand)
}

function parse(text: string): Number34 {
  const parts = /^(-?)([0-9]+)(?:\.([0-9]+))?$/.exec(text)
  if (!parts) throw new Fault('not-a-number')
  const [, sign = '', whole = '', decimals = ''] = parts
  const coefficient = BigInt(whole + decimals)
  return { coefficient: sign === '-' ? -coefficient : coefficient, exponent: -decimals.length }
}

/** Cuts to a multiple of 10^exponent, halves to even. */
function cut(value: Number34, exponent: number): Number34 {
  if (value.exponent >= exponent) return value
  return { coefficient: nearest(value.coefficient, 10n ** BigInt(exponent - value.exponent)), exponent }
}

/** 34 digits: decimal128 of IEEE 754 (2019). */
function to34(value: Number34): Number34 {
  const excess = lengthOf(value.coefficient) - 34
  return excess > 0 ? cut(value, value.exponent + excess) : value
}

function plus(a: Number34, b: Number34): Number34 {
  const exponent = Math.min(a.exponent, b.exponent)
  const at = (x: Number34) => x.coefficient * 10n ** BigInt(x.exponent - exponent)
  return to34({ coefficient: at(a) + at(b), exponent })
}

function minus(a: Number34, b: Number34): Number34 {
  return plus(a, { ...b, coefficient: -b.coefficient })
}

function times(a: Number34, b: Number34): Number34 {
  return to34({ coefficient: a.coefficient * b.coefficient, exponent: a.exponent + b.exponent })
}

function over(a: Number34, b: Number34): Number34 {
  if (b.coefficient === 0n) throw new Fault('division-by-zero')
  // Enough digits that the integer quotient has more than the 34 of IEEE 754, and one more that stands for what remains.
  const shift = Math.max(0, 36 + lengthOf(b.coefficient) - lengthOf(a.coefficient))
  const dividend = a.coefficient * 10n ** BigInt(shift)
  const quotient = dividend / b.coefficient
  const remainder = dividend % b.coefficient
  const negative = dividend < 0n !== b.coefficient < 0n
  const sticky = remainder === 0n ? 0n : negative ? -1n : 1n
  return to34({ coefficient: quotient * 10n + sticky, exponent: a.exponent - b.exponent - shift - 1 })
}

/** value ÷ divisor to the nearest whole number, halves to even; the divisor is positive. */
function nearest(value: bigint, divisor: bigint): bigint {
  const negative = value < 0n
  const size = negative ? -value : value
  const twice = (size % divisor) * 2n
  const quotient = size / divisor
  const up = twice > divisor || (twice === divisor && quotient % 2n === 1n)
  const rounded = quotient + (up ? 1n : 0n)
  return negative ? -rounded : rounded
}

function lengthOf(value: bigint): number {
  return (value < 0n ? -value : value).toString().length
}

/** Plain notation, no zeros at the end of the decimals. */
function print({ coefficient, exponent }: Number34): string {
  if (coefficient === 0n) return '0'
  const negative = coefficient < 0n
  const size = (negative ? -coefficient : coefficient).toString() + '0'.repeat(Math.max(0, exponent))
  const places = Math.max(0, -exponent)
  const padded = size.padStart(places + 1, '0')
  const whole = padded.slice(0, padded.length - places)
  const decimals = padded.slice(padded.length - places).replace(/0+$/, '')
  return `${negative ? '-' : ''}${whole}${decimals === '' ? '' : `.${decimals}`}`
}
